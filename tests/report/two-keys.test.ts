import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { csv } from '../../src/report/csv.ts';
import { reportAs } from '../../src/report/report.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { trace } from '../../src/trace/trace.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { builtIn } from '../trace/built-in.ts';
import { added } from './cart-day.ts';

/** Two keys are not a trigger: between START and FINISHED lie walking, turns and talk. Common practice, no source. */

const passes = 6;
const readOn = 'right door/flat';

/** The small day whose passes take the seconds given; with a trigger line, pulled for so many of them. */
function played(seconds: readonly number[], pulled?: readonly number[]): DayRecord[] {
	const day = rehearsed();
	for (let nth = 0; nth < passes; nth++) {
		day.until(({ ask }) => ask === 'spraying');
		const took_s = seconds[nth] ?? 60;
		const pull_s = pulled?.[nth];
		if (pull_s === undefined) day.send(`wait ${took_s} s`);
		else day.send('trigger on', `wait ${pull_s} s`, 'trigger off', `wait ${took_s - pull_s} s`);
		day.pick('finished');
		if (day.line().state === 'spraying.soon') day.pick('all');
	}
	day.toEnd();
	return day.records();
}

/** … and a film read the next morning. */
const measured = (day: readonly DayRecord[]) =>
	added(day, 15, [{ type: 'film.read', face: readOn, coat: 1, wet_um: 170, by: 'comb' }]);

/** What the trace makes of a day: whether a record says it, and what speaks for and against a heavy and a light film. */
const traced = (day: readonly DayRecord[]) =>
	['run', 'dry-spray'].flatMap(fault =>
		['left door/flat', readOn].map(face => {
			const { candidates } = trace({ days: [day], fault, face, coat: 1 }, builtIn);
			const film = candidates.filter(({ code }) => code.startsWith('film-too'));
			return { fault, face, film: film.map(({ code, told }) => [code, told]).sort() };
		}),
	);

const films = (day: readonly DayRecord[]) =>
	tablesOf(day).film.map(({ took_s, measured, ...row }) => ({
		...row,
		measured: measured.map(({ wet_um }) => wet_um),
	}));

const columns = (day: readonly DayRecord[], wanted: (name: string) => boolean) => {
	const [head = [], ...lines] = csv(tablesOf(day), 'coats')
		.split('\r\n')
		.map(line => line.split(','));
	return lines.flatMap(line => head.flatMap((name, at) => (wanted(name) ? [line[at]] : [])));
};
const isFilm = (name: string) => /^(target|laid|sag|pace)/.test(name);

const plain = measured(played([]));

describe('without a trigger line', () => {
	test('days that differ in the seconds between START and FINISHED have the same causes and the same films', () => {
		const seconds = fc.array(fc.integer({ min: 1, max: 110 }), { minLength: passes, maxLength: passes });
		const wanted = { traced: traced(plain), films: films(plain), cells: columns(plain, isFilm) };
		fc.assert(
			fc.property(seconds, took => {
				const day = measured(played(took));
				expect(tablesOf(day).coats.map(({ took_s }) => took_s)).toEqual(took);
				expect({ traced: traced(day), films: films(day), cells: columns(day, isFilm) }).toEqual(wanted);
			}),
			{ numRuns: 12 },
		);
	});

	test('a laid film is an empty cell beside the seconds it took, and the page draws none', () => {
		const day = measured(played([24, 110]));
		expect(
			columns(day, name => /^(laid|pace)/.test(name)).filter(cell => cell !== '' && cell !== undefined),
		).toEqual([]);
		expect(columns(day, name => name === 'took_s').slice(0, 2)).toEqual(['24', '110']);
		const html = reportAs('html', { day, days: [day], faults: builtIn, sheet: 'coats' }).replaceAll(
			'\u00a0',
			' ',
		);
		const [, section = ''] = /<section aria-labelledby="film">(.*?)<\/section>/s.exec(html) ?? [];
		expect(section).toContain('24 s for 60 s');
		expect(section).not.toMatch(/Laid, wet|\b(slow|fast|as planned)\b|over (the sag|its) limit|class="film"/);
		expect(section).toContain('170 µm wet');
	});

	test('a film that was read is traced as it is', () => {
		const found = trace({ days: [plain], fault: 'run', face: readOn, coat: 1 }, builtIn);
		expect(found.candidates[0]).toMatchObject({ code: 'film-too-heavy', told: true });
	});
});

describe('with a trigger line', () => {
	test('the sum of pulls gives the film, whatever lies between the keys', () => {
		const pulls = [60, 110, 20];
		const near = films(played([75, 125, 35], pulls)).slice(0, 3);
		expect(near.map(({ pace }) => pace)).toEqual(['right', 'slow', 'fast']);
		expect(films(played([61, 111, 21], pulls)).slice(0, 3)).toEqual(near);
	});

	test('the trace names a heavy film from it, and says by what', () => {
		const day = played([70, 112, 70], [60, 110, 60]);
		const [first] = trace({ days: [day], fault: 'run', face: 'left door/flat', coat: 1 }, builtIn).candidates;
		expect(first).toMatchObject({ code: 'film-too-heavy', told: true });
		expect(first?.for[0]).toMatch(/^the trigger was pulled \d+ s for \d+ s, not measured$/);
	});
});
