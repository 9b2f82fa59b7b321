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
	['orange-peel', 'gun-too-near', 'NAVEDTRA 14018'],
	['dry-spray', 'gun-too-far', 'NAVEDTRA 14018'],
	['dry-spray', 'pressure-off', 'TM 43-0139 p. 5-12'],
	['spit', 'bad-pattern', 'TM 43-0139 p. 5-11'],
	['stays-soft', 'air-out-of-limits', 'TM 43-0139 §5-31'],
	['blush', 'air-out-of-limits', 'FAA-H-8083-31 ch. 8'],
	['blush', 'wrong-can', 'FAA-H-8083-31 ch. 8'],
	['blush', 'pressure-off', 'FAA-H-8083-31 ch. 8'],
	['pinholes', 'surface', 'FAA-H-8083-31 ch. 8'],
	['pinholes', 'film-too-heavy', 'FAA-H-8083-31 ch. 8'],
	['pinholes', 'air-line', 'FAA-H-8083-31 ch. 8'],
	['pinholes', 'dirt-in-paint', 'FAA-H-8083-31 ch. 8'],
	['peeling', 'surface', 'FAA-H-8083-31 ch. 8'],
	['peeling', 'wrong-can', 'FAA-H-8083-31 ch. 8'],
	['peeling', 'wrong-ratio', 'FAA-H-8083-31 ch. 8'],
];

test.each(published)('%s may come of %s, as %s says', (name, cause, source) => {
	expect(claimsOf(fault(name), cause).map(claim => claim.source)).toContain(source);
});

test('where sources disagree on sags both are shown: TM 43-0139 p. 5-12 too thick, §5-30 thinned too far', () => {
	expect(claimsOf(fault('sag'), 'viscosity-off').map(({ form, as }) => [form, as])).toEqual([
		['thin', 'thinned too far'],
		['thick', 'too thick'],
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

test('runs and sags are led by a heavy film and a gun too near, and not by the fan (from memory)', () => {
	for (const name of ['run', 'sag'])
		expect(causesOf(fault(name)).slice(0, 2)).toEqual(['film-too-heavy', 'gun-too-near']);
});

test('something else may be any cause in any form, in no order', () => {
	const named = new Set(
		Object.values(builtIn.faults)
			.filter(one => one.trace)
			.flatMap(({ causes }) => causes.map(({ cause, form }) => `${cause} ${form}`)),
	);
	const other = fault('other');
	expect(other.flat).toBe(true);
	expect(new Set(other.causes.map(({ cause, form }) => `${cause} ${form}`))).toEqual(named);
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
		'gun-too-near',
		'gun-too-far',
		'dirt-in-paint',
		'air-line',
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
	expect(() => readFaults('faults: [', 'ours.yaml')).toThrow(/^ours\.yaml:1:10: /);
});

test('names that mean something to the program itself are names like any other, or refused', () => {
	const named = readFaults(own.replace('  cloud:', '  constructor:'), 'ours.yaml');
	const joined = joinFaults([builtIn, named]);
	expect(joined.faults.constructor).toMatchObject({ say: 'a cloud' });
	expect(causesOf(fault('run'))).not.toContain('steam');
	expect(joinFaults([builtIn]).faults.constructor).toBeUndefined();
	expect(() => readFaults(own.replace('  cloud:', '  __proto__:'), 'ours.yaml')).toThrow(
		/^ours\.yaml:4:3: faults: found "__proto__"; a code is small letters/,
	);
	const cause = own.replace('[{ cause: steam', '[{ cause: constructor');
	expect(() => joinFaults([builtIn, readFaults(cause, 'ours.yaml')])).toThrow(
		/cause constructor is not described/,
	);
});

const nine = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i'];
const bomb = nine
	.map(
		(name, at) =>
			`${name}: &${name} [${Array(9)
				.fill(at === 0 ? 'x' : `*${nine[at - 1]}`)
				.join(', ')}]`,
	)
	.join('\n');

test.each([
	['a bomb of aliases', bomb],
	['a hundred thousand brackets', '['.repeat(100_000)],
	['twenty thousand braces', '{a: '.repeat(20_000)],
	['a list', '- run'],
	['a word', 'run'],
	['a tag', '!!js/function x'],
	['a cause twice', 'causes:\n  x: { say: x, check: x }\n  x: { say: y, check: y }'],
	['a time that is none', own.replace('from_min: 1,', 'from_min: NaN,')],
	['a time without end', own.replace('to_min: 9', 'to_min: 1e999')],
	['a fault of nothing', 'faults:\n  run:'],
	['no cause', own.replace('causes: [{ cause: steam, source: our own shop }]', 'causes: []')],
])('%s is refused in one line', (_name, text) => {
	const read = () => readFaults(text, 'ours.yaml');
	expect(read).toThrow(FaultsError);
	expect(read).toThrow(/^ours\.yaml:\d+:\d+: [^\n]{5,600}$/);
});
