import { expect, test } from 'vitest';
import { nowOf } from '../../src/cli/now.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { csv } from '../../src/report/csv.ts';
import { reportAs } from '../../src/report/report.ts';
import { daySentences } from '../../src/report/summary.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { playDay } from '../model/by-chance/days.ts';
import { builtIn } from '../trace/built-in.ts';
import { added } from './cart-day.ts';

/** Every form of a report says the same figures of the same day: 500 days by chance, a hundred played, each at five moments. */

const days = 100;
const moments = 5;
/** Days of one test. */
const some = 5;

/** Figures of a day counted from its records alone, by another way than the program's. */
function counted(records: readonly DayRecord[]) {
	let isBroken = false;
	let breaks = 0;
	const last = new Map<string, string>();
	const read = { first: 0, differed: 0 };
	const films = new Set<string>();
	for (const record of records) {
		if (record.type === 'break.began' && !isBroken) breaks++;
		if (record.type === 'break.began') isBroken = true;
		if (record.type === 'break.ended') isBroken = false;
		if (record.type === 'face.started') last.set(`${record.face} ${record.coat}`, 'begun');
		if (record.type === 'face.ended') last.set(`${record.face} ${record.coat}`, record.extent);
		if (record.type === 'film.read') films.add(`${record.face} ${record.coat}`);
		if (record.type === 'reading.taken' && record.attempt === 1 && record.wanted !== null) {
			read.first++;
			if (!record.matched) read.differed++;
		}
	}
	const coats = [...last.values()].filter(extent => extent === 'all').length;
	return { ...read, breaks, coats, films: films.size };
}

/** The day as it stood at some moments, each at the end of a key. */
function seenAt(records: readonly DayRecord[]): DayRecord[][] {
	const ends = records.flatMap(({ more }, nth) => (more ? [] : [nth + 1]));
	return Array.from({ length: moments }, (_, nth) =>
		records.slice(0, ends[Math.floor(((nth + 1) * (ends.length - 1)) / moments)]),
	);
}

const figures = (text: string | undefined): number[] =>
	[...(text ?? '').matchAll(/\d+/g)].map(([one]) => Number(one));

/** So many coats as a sentence says; of one it says the place. */
const overSaid = (text: string | undefined): number =>
	text === undefined ? 0 : Number(/: (\d+) coats/.exec(text)?.[1] ?? 1);

function page(day: readonly DayRecord[]) {
	const html = reportAs('html', { day, days: [day], faults: builtIn, sheet: 'coats' });
	const boxes = [...html.matchAll(/<li><strong>([^<]*)<\/strong> ([^<]*)<\/li>/g)].map(([, many, what]) => ({
		many: Number(many),
		what: what ?? '',
	}));
	const box = (named: RegExp) => boxes.find(({ what }) => named.test(what));
	const [, rows = ''] = /<caption>Breaks<\/caption>(.*?)<\/table>/s.exec(html) ?? [];
	const [differed = 0, first = 0] = figures(/(\d+ of \d+) first readings? differed/.exec(html)?.[1]);
	expect([box(/first reading/)?.many, figures(box(/first reading/)?.what)[0]]).toEqual([differed, first]);
	expect(rows.match(/scope="row"/g)?.length ?? 0).toBe(box(/^breaks?,/)?.many);
	const coats = box(/laid whole/);
	const [, on] = figures(coats?.what);
	return {
		over: overSaid(/Film over target: [^<]*/.exec(html)?.[0]),
		first,
		differed,
		breaks: box(/^breaks?,/)?.many,
		coats: coats?.many,
		films: box(/film/)?.many,
		on,
	};
}

function summary(day: readonly DayRecord[]) {
	const said = daySentences(day);
	const line = (begins: RegExp) => said.find(text => begins.test(text));
	const [first = 0, differed = 0] = figures(line(/^First readings: /));
	const coats = said.filter(text => /^Coat \d+: \d+ face/.test(text)).map(text => figures(text)[1] ?? 0);
	return {
		over: overSaid(line(/^Film over target: /)),
		first,
		differed,
		breaks: figures(line(/^Breaks: /))[0] ?? 0,
		coats: coats.reduce((sum, one) => sum + one, 0),
		films: new Set(said.filter(text => /^Film: /.test(text)).map(text => text.split(', ').slice(0, 2).join()))
			.size,
	};
}

function table(day: readonly DayRecord[]) {
	const tables = tablesOf(day);
	const rows = (name: Parameters<typeof csv>[1]) => {
		const [head = '', ...lines] = csv(tables, name).trimEnd().split('\r\n');
		return lines.map(line => {
			const cells = line.split(',');
			return Object.fromEntries(head.split(',').map((key, nth) => [key, cells[nth]]));
		});
	};
	const [counts = {}] = rows('counts');
	expect(rows('breaks')).toHaveLength(Number(counts.breaks));
	const departed = (is: string) =>
		rows('coats').filter(({ against_target }) => against_target === `"${is}"`).length;
	expect([departed('over'), departed('under')]).toEqual([
		Number(counts.films_over),
		Number(counts.films_under),
	]);
	const worked = rows('coats').filter(({ laid_wet_um }) => laid_wet_um !== '');
	expect(worked).toHaveLength(Number(counts.films_worked_out));
	expect(rows('coats').filter(({ extent }) => extent === '"all"')).toHaveLength(Number(counts.coats_laid));
	expect(rows('readings').filter(({ attempt }) => attempt === '1')).toHaveLength(
		Number(counts.first_differed),
	);
	return named(Object.fromEntries(Object.entries(counts).map(([key, cell]) => [key, Number(cell)])));
}

const named = (counts: Record<string, number>) => ({
	first: counts.first_readings,
	differed: counts.first_differed,
	breaks: counts.breaks,
	coats: counts.coats_laid,
	films: counts.films_read,
	on: counts.coats_on,
	over: counts.films_over ?? Number.NaN,
});

function data(day: readonly DayRecord[]) {
	const { tables } = JSON.parse(reportAs('json', { day, days: [day], faults: builtIn, sheet: 'coats' }));
	return named(tables.counts);
}

/** What `now` says, of the moment of the last record. */
function now(day: readonly DayRecord[]) {
	const { faces, counts } = nowOf(day, Date.parse(day.at(-1)?.at ?? ''));
	expect(faces.reduce((sum, { coats }) => sum + coats, 0)).toBe(counts.coats_on);
	expect(faces.reduce((sum, { planned }) => sum + planned, 0)).toBe(counts.coats_planned);
	return named(counts);
}

/** What a gauge said of the coats of a closed day, the morning after. */
function withFilm(day: readonly DayRecord[], seed: number): readonly DayRecord[] {
	if (day.at(-1)?.type !== 'day.closed') return day;
	const ended = day.filter(record => record.type === 'face.ended');
	const read = ended.filter((_, nth) => (nth + seed) % 3 > 0);
	return added(
		day,
		15,
		read.map(({ face, coat }) => ({ type: 'film.read', face, coat, wet_um: 90 + seed, by: 'comb' })),
	);
}

const given = { jobs: [smallJob()], lists: smallLists() };

const most = { first: 0, differed: 0, breaks: 0, coats: 0, films: 0, over: 0 };

test.each(Array.from({ length: days / some }, (_, nth) => nth * some))(
	'page, summary, tables, data and now say the same first readings, breaks, coats and films (days from %i)',
	from => {
		for (let seed = from; seed < from + some; seed++)
			for (const day of seenAt(withFilm(playDay(given, seed, 260).records, seed))) {
				const wanted = counted(day);
				const { on, over, ...said } = now(day);
				expect(said, `day ${seed}`).toEqual(wanted);
				for (const form of [page, table, data])
					expect(form(day), `${form.name} of day ${seed}`).toEqual({ ...wanted, on, over });
				expect(summary(day), `summary of day ${seed}`).toEqual({ ...wanted, over });
				const all = { ...wanted, over };
				for (const key of Object.keys(most) as (keyof typeof most)[])
					most[key] = Math.max(most[key], all[key]);
			}
	},
);

test('… and they are no empty days', () => {
	for (const [key, value] of Object.entries(most)) expect(value, key).toBeGreaterThan(1);
});
