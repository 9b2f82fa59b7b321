import { expect, test } from 'vitest';
import { causesOf, claimsOf, FaultsError, joinFaults, readFaults } from '../../src/trace/faults.ts';
import { builtIn } from './built-in.ts';

const fault = (name: string) => {
	const found = builtIn.faults[name];
	if (!found) throw new Error(`no fault ${name}`);
	return found;
};

/** Published: fault, cause, source; the words of the tables are in the fault data beside each. */
const published: [string, string, string][] = [
	['run', 'film-too-heavy', 'TM 43-0139 p. 5-12'],
	['run', 'viscosity-off', 'TM 43-0139 p. 5-12'],
	['run', 'viscosity-off', 'TM 43-0139 §5-30'],
	['sag', 'viscosity-off', 'TM 43-0139 p. 5-12'],
	['sag', 'viscosity-off', 'TM 43-0139 §5-30'],
	['sag', 'film-too-heavy', 'TM 43-0139 §5-30'],
	['run', 'pressure-off', 'TM 43-0139 p. 5-12'],
	['stripes', 'bad-pattern', 'TM 43-0139 p. 5-12'],
	['orange-peel', 'viscosity-off', 'TM 43-0139 p. 5-12'],
	['orange-peel', 'pressure-off', 'TM 43-0139 p. 5-12'],
	['orange-peel', 'film-too-light', 'NAVEDTRA 14018'],
	['dry-spray', 'film-too-light', 'NAVEDTRA 14018'],
	['dry-spray', 'pressure-off', 'TM 43-0139 p. 5-12'],
	['spit', 'bad-pattern', 'TM 43-0139 p. 5-11'],
	['stays-soft', 'air-out-of-limits', 'TM 43-0139 §5-31'],
	['blush', 'air-out-of-limits', 'FAA-H-8083-31 ch. 8'],
	['blush', 'wrong-can', 'FAA-H-8083-31 ch. 8'],
	['blush', 'pressure-off', 'FAA-H-8083-31 ch. 8'],
	['pinholes', 'surface', 'FAA-H-8083-31 ch. 8'],
	['pinholes', 'film-too-heavy', 'FAA-H-8083-31 ch. 8'],
	['peeling', 'surface', 'FAA-H-8083-31 ch. 8'],
	['peeling', 'wrong-can', 'FAA-H-8083-31 ch. 8'],
	['peeling', 'wrong-ratio', 'FAA-H-8083-31 ch. 8'],
];

test.each(published)('%s may come of %s, as %s says', (name, cause, source) => {
	expect(claimsOf(fault(name), cause).map(claim => claim.source)).toContain(source);
});

test('where sources disagree on sags both are shown: TM 43-0139 p. 5-12 too thick, §5-30 thinned too far', () => {
	expect(claimsOf(fault('sag'), 'viscosity-off').map(claim => claim.as)).toEqual([
		'too thick',
		'thinned too far',
	]);
});

test('a run shows within minutes, wrinkling under the next coat, soft paint the next day (common practice, no source)', () => {
	expect(fault('run').shows.to_min).toBeLessThan(60);
	expect(fault('wrinkling').reach).toBe('under');
	expect(fault('stays-soft').shows.from_min).toBeGreaterThan(300);
	expect(fault('die-back').shows.to_min).toBeGreaterThan(7 * 24 * 60);
});

test('an insect, a hose or a fingerprint starts no trace', () => {
	for (const name of ['insect', 'hose', 'fingerprint']) expect(fault(name).trace).toBe(false);
});

test('every cause code that others rely on is described', () => {
	expect(Object.keys(builtIn.causes)).toEqual([
		'fan-along-stroke',
		'bad-pattern',
		'pressure-off',
		'no-hardener',
		'wrong-can',
		'wrong-ratio',
		'batch-too-old',
		'not-stood',
		'viscosity-off',
		'air-out-of-limits',
		'coat-too-early',
		'window-missed',
		'film-too-heavy',
		'film-too-light',
		'face-missed',
		'too-many-coats',
		'surface',
		'handling',
	]);
});

const own = `causes:
  steam: { say: steam from the urn, check: the lid of the urn }
faults:
  cloud:
    say: a cloud
    shows: { from_min: 1, to_min: 9 }
    reach: this
    causes: [{ cause: steam, source: our own shop }]
  run:
    say: a curtain
    shows: { from_min: 1, to_min: 9 }
    reach: this
    causes: [{ cause: steam, source: our own shop }]
`;

test('a shop adds its own faults and causes; its causes of a known fault go first', () => {
	const joined = joinFaults([builtIn, readFaults(own, 'ours.yaml')]);
	expect(joined.faults.cloud?.say).toBe('a cloud');
	expect(causesOf(joined.faults.run ?? fault('run'))[0]).toBe('steam');
	expect(causesOf(joined.faults.run ?? fault('run'))).toContain('fan-along-stroke');
});

test('a cause that nobody describes is refused by name', () => {
	const lost = readFaults(
		own.replace(
			'  steam: { say: steam from the urn, check: the lid of the urn }',
			'  x: { say: x, check: x }',
		),
		'ours.yaml',
	);
	expect(() => joinFaults([builtIn, lost])).toThrow(/run: cause steam is not described/);
});

test('a wrong field is shown with line and column', () => {
	expect(() => readFaults(own.replace('reach: this', 'reach: far'), 'ours.yaml')).toThrow(FaultsError);
	expect(() => readFaults(own.replace('reach: this', 'reach: far'), 'ours.yaml')).toThrow(
		/^ours\.yaml:7:12: /,
	);
	expect(() => readFaults('faults: [', 'ours.yaml')).toThrow(/^ours\.yaml:1:\d+: not YAML/);
});
