import { inert } from '../job/inert.ts';
import { coatKey } from '../records/passes.ts';
import { short, shortFace, spoken } from '../words/spoken.ts';
import { coatsOn } from './tables/counts.ts';
import { plannedCoat } from './tables/day.ts';
import { isVerdict } from './tables/happenings.ts';
import { clockOf, many, type Told, where } from './told.ts';

type Spot = { face: string; coat: number };

/** What a day comes to: what is done, what to look at, what is due next and when. Sentences of at most 12 words. */
export type Verdict = { done: string[]; look: string[]; next: string[] };

/** What is to be looked at, and the faces that it speaks against. */
type Look = { says: string; faces: readonly string[] };

/** The last verdict on each coat. */
const judgedOn = ({ rows }: Told): Map<string, string> =>
	new Map(
		rows.work.flatMap(({ face, coat, did }) =>
			coat !== null && isVerdict(did) ? [[coatKey({ face, coat }), did] as const] : [],
		),
	);

/** A fault that nobody has cleared or accepted since. */
function isOpen(
	judged: ReadonlyMap<string, string>,
	{ face, coat }: { face: string | null; coat: number | null },
) {
	const verdict = face === null || coat === null ? undefined : judged.get(coatKey({ face, coat }));
	return verdict === undefined || verdict === 'rework';
}

/** Parts that are out of line as the day ends, with the faces of each that have the fault. */
function aside({ day }: Told): Look[] {
	const parts = new Map<string, { why: string; faces: string[] }>();
	for (const { id, part } of day.job.faces) {
		const why = day.book.faces.get(id)?.aside?.why;
		if (why === undefined) continue;
		const known = parts.get(part) ?? { why, faces: [] };
		parts.set(part, { ...known, faces: [...known.faces, id] });
	}
	return [...parts].map(([part, { why, faces }]) => ({
		says: spoken('Set aside', short(inert(part), 5), short(why, 4)),
		faces,
	}));
}

function faults(told: Told, judged: ReadonlyMap<string, string>): Look[] {
	return told.rows.faults
		.filter(row => isOpen(judged, row))
		.map(row => {
			const fault = short(row.fault.replaceAll('-', ' '), 3);
			const at = `seen ${clockOf(told)(row.at)}`;
			const says = spoken(fault, row.gun ? 'the gun' : where(row, fault, at), at);
			return { says, faces: row.face === null ? [] : [row.face] };
		});
}

/** Several coats in one sentence; of one its place. */
function together(topic: string, spots: readonly Spot[], first: Spot | undefined = spots[0]): Look[] {
	if (!first) return [];
	const all = many(spots.length, 'coat');
	const says =
		spots.length === 1
			? spoken(topic, where(first, topic))
			: spoken(topic, all, `first ${where(first, topic, all, 'first')}`);
	return [{ says, faces: spots.map(({ face }) => face) }];
}

/** Coats that may have a fault seen elsewhere, not judged yet: by its likeliest cause, where the records tell of one. */
function exposed({ traces }: Told, judged: ReadonlyMap<string, string>): Look[] {
	const spots = new Map<string, Spot>();
	for (const { trace } of traces) {
		if (!trace) continue;
		const open = (spot: Spot) => trace.open.some(one => coatKey(one) === coatKey(spot));
		const doubted = trace.told && trace.likely.length > 0 ? trace.likely : trace.exposed;
		const order = [...trace.inspect, ...doubted];
		for (const spot of order)
			if (doubted.some(one => coatKey(one) === coatKey(spot)) && open(spot) && isOpen(judged, spot))
				spots.set(coatKey(spot), spot);
	}
	// Nothing was seen on them: they speak against no face.
	return together('May have it too', [...spots.values()]).map(({ says }) => ({ says, faces: [] }));
}

function films({ rows }: Told): Look[] {
	const departs = (is: 'over' | 'under') => rows.film.filter(row => row.against_target === is);
	return [
		...together(
			'Over the sag limit',
			rows.film.filter(({ over_sag }) => over_sag),
		),
		...together('Film over target', departs('over')),
		...together('Film under target', departs('under')),
	];
}

function passedOver(told: Told): Look[] {
	return told.rows.overrides.map(record => {
		const rule = short(record.rule.replaceAll('-', ' '), 3);
		const at = clockOf(told)(record.at);
		const says = spoken('Passed over', rule, where(record, 'Passed over', rule, at), at);
		return { says, faces: record.face === null ? [] : [record.face] };
	});
}

function looks(told: Told): Look[] {
	const judged = judgedOn(told);
	const inPart = told.rows.coats.filter(({ extent }) => extent === 'part' || extent === 'unsaid');
	return [
		...aside(told),
		...faults(told, judged),
		...exposed(told, judged),
		...together('Laid in part', inPart),
		...films(told),
		...passedOver(told),
	];
}

/** Coats on by stage, and faces that nothing speaks against. */
function done(told: Told, against: readonly Look[]): string[] {
	const { day, rows } = told;
	const stages = new Map<number, { on: number; planned: number }>();
	const count = (stage: number | undefined, key: 'on' | 'planned') => {
		if (stage === undefined) return;
		const known = stages.get(stage) ?? { on: 0, planned: 0 };
		stages.set(stage, { ...known, [key]: known[key] + 1 });
	};
	for (const { id, coats } of day.job.faces) {
		for (const { stage } of coats) count(stage, 'planned');
		const on = coatsOn(day, rows.coats, id);
		for (let coat = 1; coat <= on; coat++) count(plannedCoat(day.job, id, coat)?.stage, 'on');
	}
	const begun = day.job.faces.filter(
		({ id }) => coatsOn(day, rows.coats, id) > 0 || rows.coats.some(({ face }) => face === id),
	);
	const clear = begun.filter(({ id }) => !against.some(({ faces }) => faces.includes(id)));
	const judged = rows.work.filter(({ did }) => did === 'cleared' || did === 'accepted');
	return [
		...[...stages].map(([stage, { on, planned }]) =>
			spoken(short(inert(day.job.stages[stage]?.name ?? 'spray'), 6), `${on} of ${planned} coats on`),
		),
		...(begun.length > 0
			? [spoken('Nothing seen against', `${clear.length} of ${many(begun.length, 'face')} begun`)]
			: []),
		...judged.map(row => spoken(where(row), row.did)),
	];
}

const before: Record<string, string> = { scuff: ', scuff first', sand: ', sand first' };

function next(told: Told): string[] {
	const { day, rows } = told;
	const time = clockOf(told);
	const said = rows.coming.map(({ what, stage, coat, faces, from, until }, nth) => {
		const step = what === 'stage' ? stage : stage === 'rework' ? `${what} off` : what;
		const work = coat === null ? step : `coat ${coat.number}${before[coat.does] ?? ''}`;
		const topic = nth === 0 ? 'Next' : 'Then';
		const when = until === null ? `from ${time(from)}` : `${time(from)} to ${time(until)}`;
		const one =
			faces.length === 1 ? shortFace(faces[0] ?? '', topic, when, '1', '2') : many(faces.length, 'face');
		const left = 12 - [topic, one, when].join(' ').split(' ').length;
		return spoken(topic, short(inert(work), Math.max(1, left)), one, when);
	});
	const bare = day.job.faces.filter(
		({ id }) => coatsOn(day, rows.coats, id) === 0 && !rows.coats.some(({ face }) => face === id),
	);
	const untouched = bare.length > 0 ? [spoken('Not begun', many(bare.length, 'face'))] : [];
	return [...said, ...untouched];
}

/** The verdict on a day; nothing in it says that a coat is sound, only that no record speaks against it. */
export function verdictOf(told: Told): Verdict {
	const found = looks(told);
	const coming = next(told);
	return {
		done: done(told, found),
		look: found.length > 0 ? found.map(({ says }) => says) : ['Look at: nothing that the records show.'],
		next: coming.length > 0 ? coming : ['Next: nothing that the sheet asks for.'],
	};
}
