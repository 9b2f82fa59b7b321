import type { DayRecord, EventType, ReadingFeature } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import { everyType } from '../records/every.ts';
import { ofType, type RecordOf } from '../records/of-type.ts';
import type { Quantity } from '../trade/quantity.ts';
import { format, type UnitSystem } from '../trade/shown.ts';
import { beganAt } from './began.ts';
import { clockOn, date } from './clock.ts';
import { lateSaid } from './late.ts';
import { duration, figure } from './say.ts';
import { short, shortFace, spoken } from './spoken.ts';

type Day = readonly DayRecord[];

const of = <Type extends Told>(day: Day, type: Type): RecordOf<Type>[] => ofType(day, type);

const ms = (record: { at: string }): number => Date.parse(record.at);

const clockOf = (day: Day) => {
	const [opened] = of(day, 'day.opened');
	return (record: { at: string }) => clockOn(ms(record), ms(opened ?? record), opened?.zone);
};
const many = (count: number, one: string, more = `${one}s`): string => `${count} ${count === 1 ? one : more}`;

function heading(day: Day): string[] {
	const opened = of(day, 'day.opened')[0];
	if (!opened) return [];
	const closed = of(day, 'day.closed').at(-1);
	const state = closed ? `closed ${clockOf(day)(closed)}` : 'not closed';
	return [spoken('Day', short(opened.job, 5), date(ms(opened), opened.zone), state)];
}

function coats(day: Day): string[] {
	const ended = of(day, 'face.ended').filter(({ extent }) => extent !== 'none');
	const started = of(day, 'face.started');
	const said = [...new Set(started.map(({ coat }) => coat))].sort((a, b) => a - b);
	const time = clockOf(day);
	const zone = of(day, 'day.opened')[0]?.zone;
	return said.flatMap(coat => {
		const first = started.find(record => record.coat === coat);
		const mine = ended.filter(record => record.coat === coat);
		const last = mine.at(-1);
		if (!first || !last) return [];
		const faces = new Set(mine.map(({ face }) => face)).size;
		const until = clockOn(ms(last), ms(first), zone);
		return [spoken(`Coat ${coat}`, many(faces, 'face'), `${time(first)} to ${until}`)];
	});
}

function air(day: Day, units: UnitSystem): string[] {
	return of(day, 'air.read').map(record =>
		spoken(
			'Air',
			`${format(record.airC, 'temperature', units)}, ${format(record.humidity, 'share', units)} humidity`,
			`${clockOf(day)(record)}${record.spray ? '' : ', do not spray'}`,
		),
	);
}

function batches(day: Day, units: UnitSystem): string[] {
	const ready = of(day, 'batch.ready').map(({ batch, volume_mL }) =>
		spoken(`Batch ${batch}`, format(volume_mL, 'volume', units), 'mixed'),
	);
	const gone = of(day, 'batch.discarded').map(({ batch, why }) =>
		spoken(`Batch ${batch}`, 'thrown away', short(why, 6)),
	);
	return [...ready, ...gone];
}

function breaks(day: Day): string[] {
	const lengths: { at: { at: string }; s: number }[] = [];
	let open: { at: string } | null = null;
	for (const record of day) {
		if (record.type === 'break.began') open ??= { at: beganAt(record) };
		if (record.type === 'break.ended' && open) {
			lengths.push({ at: open, s: (ms(record) - ms(open)) / 1000 });
			open = null;
		}
	}
	const longest = lengths.toSorted((a, b) => b.s - a.s)[0];
	if (!longest) return [];
	return [
		spoken('Breaks', String(lengths.length), `longest ${duration(longest.s)} at ${clockOf(day)(longest.at)}`),
	];
}

const quantityOf: Partial<Record<ReadingFeature, Quantity>> = {
	gauge: 'pressure',
	'pattern-height': 'length',
};

function shown(feature: ReadingFeature, value: string | number | string[] | null, units: UnitSystem): string {
	if (value === null) return 'nothing';
	if (typeof value !== 'number') return short(Array.isArray(value) ? value.join('/') : value, 2);
	const quantity = quantityOf[feature];
	return quantity ? format(value, quantity, units) : figure(value);
}

function readings(day: Day, units: UnitSystem): string[] {
	const first = of(day, 'reading.taken').filter(({ attempt }) => attempt === 1);
	const differed = first.filter(({ matched }) => !matched);
	const count = spoken('First readings', String(first.length), `${differed.length || 'none'} differed`);
	const each = differed.map(record =>
		spoken(
			record.feature.replaceAll('-', ' '),
			record.face ? shortFace(record.face) : record.batch ? `batch ${record.batch}` : '',
			`${shown(record.feature, record.value, units)} for ${shown(record.feature, record.wanted, units)}`,
		),
	);
	return first.length === 0 ? [] : [count, ...each];
}

/** Face and coat of a record, beside what else is said of it. */
function where(
	{ face, coat }: { face?: string | null | undefined; coat?: number | null | undefined },
	...beside: string[]
): string {
	if (!face) return '';
	const layer = coat ? `coat ${coat}` : '';
	const name = shortFace(face, layer, ...beside);
	return layer === '' ? name : `${name}, ${layer}`;
}

function passedOver(day: Day): string[] {
	return of(day, 'override.given').map(record => {
		const rule = short(record.rule.replaceAll('-', ' '), 3);
		const at = clockOf(day)(record);
		return spoken('Passed over', rule, where(record, 'Passed over', rule, at), at);
	});
}

function faults(day: Day): string[] {
	const seen = of(day, 'fault.seen').map(record => {
		const fault = short(record.fault.replaceAll('-', ' '), 3);
		const at = `seen ${clockOf(day)(record)}`;
		return spoken(fault, record.gun ? 'the gun' : where(record, fault, at), at);
	});
	const aside = of(day, 'part.setAside').map(record =>
		spoken('Set aside', short(inert(record.part), 5), short(record.why, 4)),
	);
	const judged = of(day, 'face.judged').map(record => spoken(where(record), record.verdict));
	return [...seen, ...aside, ...judged];
}

function rest(day: Day, units: UnitSystem): string[] {
	const late = of(day, 'face.late').map(record => {
		const took = lateSaid(day, record) ?? 'over its time';
		return spoken('Late', where(record, 'Late', took), took);
	});
	const film = of(day, 'film.read').map(record =>
		spoken(
			'Film',
			where(record),
			record.wet_um === undefined
				? `${format(record.dry_um ?? 0, 'film', units)} dry`
				: `${format(record.wet_um, 'film', units)} wet`,
		),
	);
	return [...late, ...film];
}

/** What the sentences of a day tell of, and what they leave to its tables. */
const told = everyType({
	heading: ['day.opened', 'day.closed'],
	coats: ['face.started', 'face.ended'],
	air: ['air.read'],
	batches: ['batch.ready', 'batch.discarded'],
	breaks: ['break.began', 'break.ended'],
	readings: ['reading.taken'],
	passedOver: ['override.given'],
	rest: ['face.late', 'film.read'],
	faults: ['fault.seen', 'part.setAside', 'face.judged'],
	not: [
		...(['day.planned', 'clock.set', 'check.began', 'item.answered', 'gun.set', 'gun.checked'] as const),
		...(['gun.unknown', 'batch.started', 'batch.stepped', 'batch.poured', 'batch.found'] as const),
		...(['batch.stood', 'cup.timed', 'batch.loaded', 'cup.emptied', 'edge.left', 'window.set'] as const),
		...(['window.moved', 'wait.began', 'wait.ended', 'stage.done', 'rework.done', 'photo.kept'] as const),
		...(['trigger.on', 'trigger.off'] as const),
	],
});
type Told = Exclude<EventType, (typeof told)['not'][number]>;

/**
 * A day in spoken sentences: topic, place, action, at most 12 words each.
 * @param units how all amounts are said
 */
export function daySentences(day: Day, units: UnitSystem = 'metric'): string[] {
	return [
		...heading(day),
		...air(day, units),
		...coats(day),
		...batches(day, units),
		...breaks(day),
		...readings(day, units),
		...passedOver(day),
		...rest(day, units),
		...faults(day),
	];
}
