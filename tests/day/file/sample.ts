import { type DayEvent, type DayRecord, eventTypes } from '../../../src/day/records.ts';
import { settingsSchema } from '../../../src/day/settings.ts';
import type { Job } from '../../../src/job/job.ts';

export const sheet: Job = {
	name: 'canopy rail',
	units: 'metric',
	shop: { air_C: 20, humidity: 0.5, clearance: null, extractorAt: null, hours: null },
	gun: {
		pressure_kPa: 180,
		fanHeight_mm: 250,
		fanDepth_mm: 40,
		beta: [2, 3],
		distance_mm: 150,
		overlap: 0.5,
		flow_mL_per_min: 200,
		speed_mm_per_s: 400,
		transfer: 0.65,
		transfer_tolerance: 0.05,
		cup_mL: 600,
		cupKind: 'gravity',
	},
	materials: {},
	stages: [{ kind: 'wait', name: 'dry', hours: 1 }],
	parts: [{ name: 'canopy rail', place: null }],
	faces: [
		{
			id: 'canopy rail/top',
			part: 'canopy rail',
			name: 'top',
			attitude: 'flat',
			tilt: 90,
			area_m2: 0.1,
			size_mm: null,
			fanHeight_mm: 250,
			after: [],
			coats: [],
		},
	],
	order: 'sheet',
	lists: [],
};

const at = (seconds: number) => new Date(Date.UTC(2027, 2, 2, 8, 0, seconds)).toISOString();
const face = { face: 'canopy rail/top', coat: 1 };
const nobody = { face: null, coat: null };

export const opened: DayEvent = {
	type: 'day.opened',
	v: 1,
	program: '0.1.0',
	job: 'canopy rail',
	sheet,
	lists: [],
	settings: settingsSchema.parse({}),
	clock: 'real',
	zone: 'Europe/Berlin',
	cans: [],
	before: { faces: {}, letters: 0 },
};

/** One of every type of record, in no order that a day would have. */
export const everyEvent: DayEvent[] = [
	{ type: 'day.planned', stage: 0, coat: 1, faces: [face.face], order: 'sheet' },
	{ type: 'clock.set', stepMs: -3_600_000 },
	{ type: 'air.read', airC: 20, humidity: 0.5, surfaceC: 19.5, dewPointC: 9.3, spray: true, reasons: [] },
	{ type: 'check.began', check: 1, list: 'gun-check', size: 'full', items: ['mask', 'pattern'], ...face },
	{ type: 'item.answered', check: 1, list: 'gun-check', item: 'extractor', answer: 'on', passed: true },
	{
		type: 'batch.started',
		batch: 'A',
		material: 'clear',
		ratio: { base: 2, hardener: 1, reducer: 0.3 },
		by: 'volume',
		make_mL: 400,
	},
	{ type: 'batch.stepped', batch: 'A', step: 'stir' },
	{
		type: 'batch.poured',
		batch: 'A',
		component: 'hardener',
		can: 'H-1',
		level_mL: 320,
		wanted_mL: 318.5,
		found: 'right',
	},
	{ type: 'batch.found', batch: 'A', level_mL: 200, found: 'short', component: 'base' },
	{ type: 'batch.stood', batch: 'A', facts: { stood: true } },
	{ type: 'cup.timed', batch: 'A', cup: 'iso4', seconds: 24, tempC: 20, fits: true },
	{ type: 'batch.ready', batch: 'A', volume_mL: 400 },
	{ type: 'batch.discarded', batch: 'A', why: 'hardener unknown' },
	{ type: 'batch.loaded', batch: 'A', volume_mL: 390, refill: false, to_mL: 390 },
	{ type: 'cup.emptied', volume_mL: 12, why: 'flush' },
	{ type: 'gun.set', horns: 'level', pressure_kPa: 180, fanHeight_mm: 250, fluid: '2 turns' },
	{
		type: 'reading.taken',
		feature: 'pattern',
		value: 'tall',
		wanted: 'tall',
		matched: true,
		attempt: 1,
		check: 1,
		...face,
		batch: 'A',
	},
	{ type: 'gun.checked', check: 1, size: 'full', ...face, cup: ['A'], horns: 'level', tilt: 0 },
	{ type: 'gun.unknown', why: 'cap-turn' },
	{
		type: 'face.started',
		...face,
		cup: ['A'],
		check: 1,
		air: 4,
		overrides: [],
		window: 'spray',
		from: 'start',
		spray_s: 40,
		facts: { window: 'spray', alive: true, lasts: true, enough: true },
	},
	{ type: 'face.ended', ...face, extent: 'part', lastStroke: 4, estimated: false },
	{ type: 'face.late', ...face },
	{ type: 'edge.left', ...face },
	{
		type: 'window.set',
		...face,
		surfaceC: 19.5,
		windows: [{ does: 'wait', from: at(100), until: at(1900) }],
	},
	{ type: 'window.moved', ...face, to: 'spray' },
	{ type: 'wait.began', ...face, due: at(1900), why: 'flash' },
	{ type: 'wait.ended', ...face, due: at(1900) },
	{ type: 'break.began', kind: 'hold', by: 'painter' },
	{ type: 'break.ended', kind: 'hold', by: 'painter' },
	{ type: 'override.given', rule: 'air', reason: 'ein Wort: „später“ 🙂 \u202e\u0000', ...nobody },
	{ type: 'stage.done', face: face.face, stage: 'sand', grit: 800 },
	{ type: 'fault.seen', fault: 'run', ...face },
	{ type: 'part.setAside', part: 'canopy rail', faces: [face.face], why: 'run' },
	{ type: 'rework.done', face: face.face, step: 'sand' },
	{ type: 'film.read', ...face, dry_um: 48, by: 'gauge' },
	{ type: 'photo.kept', ...face, where: 'on the phone' },
	{ type: 'face.judged', ...face, verdict: 'accepted', reason: 'inside of the rail' },
	{ type: 'trigger.on' },
	{ type: 'trigger.off' },
	{ type: 'day.closed', job: 'canopy rail', why: 'done' },
];

/** Every type that there is, for the test that the list above is complete. */
export const everyType = eventTypes;

export const stamped = (event: DayEvent, seq: number, run = 1): DayRecord => ({
	seq,
	run,
	at: at(seq),
	mono: seq * 1000,
	...event,
});

/** The first record of a day. */
export const first = stamped(opened, 1);

/** Records that follow a given number of records, with a place in the day as their mark. */
export const following = (seq: number, count: number, run = 1): DayRecord[] =>
	Array.from({ length: count }, (_, index) =>
		stamped({ type: 'cup.emptied', volume_mL: seq + index, why: 'flush' }, seq + index, run),
	);
