import {
	breakKindSchema,
	type DayEvent,
	type EventOf,
	type Facts,
	unknownWhySchema,
} from '../../src/day/records.ts';
import type { Component, Prep } from '../../src/job/job.ts';
import { allGood, type Plan, type Standing, windowsMoveFreely } from './plans.ts';
import { overridesOf } from './properties.ts';
import { type Shadow, wantedBy } from './shadow.ts';
import type { SprayedFace } from './sprayed-face.ts';

/**
 * Every event that could be put to a day, wanted or not: each type in every state, with every value of every field
 * that a guard could look at. A move is one event, or, where check and mixing are collapsed, the events of one key.
 */
export type Move = readonly DayEvent[];

export const standings: readonly Standing[] = ['spray', 'scuff', 'sand', 'wait', 'bare'];

/** What a start finds: the recoat window of its face, and the facts of the moment. */
export type Found = { window: Standing; facts: Facts | undefined };

/** Each fact in turn as bad as it can be, the others good; the window and the wet edge together, since either may serve. */
export const foundOneByOne: readonly Found[] = [
	...standings.flatMap(window => [true, false].map(wet => ({ window, facts: { ...allGood, wet } }))),
	...[
		...(['stale', 'out', 'none'] as const).map(air => ({ ...allGood, air })),
		{ ...allGood, alive: false },
		{ ...allGood, thinned: false },
		{ ...allGood, fresh: false },
		{ ...allGood, lasts: false },
		{ ...allGood, enough: false },
		{ ...allGood, aged: true },
		undefined,
	].map((facts): Found => ({ window: 'spray', facts })),
];

/** Every combination of every fact that a start could carry. */
export const factsAll: readonly Required<Pick<Facts, keyof typeof allGood>>[] = (
	['ok', 'stale', 'out', 'none'] as const
).flatMap(air =>
	Array.from({ length: 128 }, (_, bits) => ({
		air,
		alive: (bits & 1) > 0,
		lasts: (bits & 2) > 0,
		enough: (bits & 4) > 0,
		aged: (bits & 8) > 0,
		wet: (bits & 16) > 0,
		thinned: (bits & 32) > 0,
		fresh: (bits & 64) > 0,
	})),
);

export const moved = (face: string, to: Standing): EventOf<'window.moved'> => ({
	type: 'window.moved',
	face,
	coat: 1,
	to,
});

export const startOfFace = (
	face: string,
	coat: number,
	from: 'start' | 'part',
	facts: Facts | undefined,
	tie: { cup: readonly string[]; check?: number; air?: number | null; overrides?: readonly string[] },
): EventOf<'face.started'> => ({
	type: 'face.started',
	face,
	coat,
	cup: [...tie.cup],
	check: tie.check ?? 1,
	air: tie.air === undefined ? 1 : tie.air,
	overrides: [...(tie.overrides ?? [])],
	window: 'spray',
	from,
	spray_s: 60,
	...(facts && { facts }),
});

/** Windows that a face comes into. */
const standingsIn = ({ window }: Plan): readonly Standing[] => (window ? [window] : standings);

/**
 * Starts of every face with every coat, window, fact and tie, the window put right before it where windows do not move
 * by themselves; elsewhere than at the gun one of each will do, since no chart lists it there.
 */
function starts(plan: Plan, shadow: Shadow, atGun: boolean): Move[] {
	const { input, facts: only, window: standing } = plan;
	const free = windowsMoveFreely(plan);
	const nobody = startOfFace('nobody', 1, 'start', allGood, { cup: shadow.cup });
	const known = input.faces.flatMap(({ id, coats }): Move[] => {
		const tie = { cup: shadow.cup, overrides: overridesOf(shadow, id) };
		const coat = (shadow.faces[id]?.laid ?? 0) + 1;
		const put = (window: Standing, start: DayEvent): Move => (free ? [start] : [moved(id, window), start]);
		if (!atGun) return [put(standing ?? 'spray', startOfFace(id, coat, 'start', only ?? allGood, tie))];
		const both = ['start', 'part'] as const;
		if (only) return both.map(from => put(standing ?? 'spray', startOfFace(id, coat, from, only, tie)));
		const good = (from: 'start' | 'part', more = {}) =>
			put('spray', startOfFace(id, coat, from, allGood, { ...tie, ...more }));
		const other = Array.from({ length: coats.length + 2 }, (_, count) => count + 1).filter(n => n !== coat);
		return both.flatMap(from => [
			...(free ? foundOneByOne.filter(({ window }) => window === 'spray') : foundOneByOne).map(
				({ window, facts }) => put(window, startOfFace(id, coat, from, facts, tie)),
			),
			...other.map(n => put('spray', startOfFace(id, n, from, allGood, tie))),
			good(from, { check: 2 }),
			good(from, { cup: shadow.cup.length > 0 ? [] : ['A'] }),
			good(from, { cup: shadow.cup.map(() => 'Z') }),
			good(from, { air: null }),
			...(tie.overrides.length > 0 ? [good(from, { overrides: [] })] : []),
		]);
	});
	return [[nobody], ...known];
}

type Taken = EventOf<'reading.taken'>;
export const read = (
	feature: Taken['feature'],
	value: string,
	matched: boolean,
	more: Partial<Taken> = {},
): Taken => ({
	type: 'reading.taken',
	feature,
	value,
	wanted: null,
	matched,
	attempt: 1,
	check: null,
	face: null,
	coat: null,
	batch: null,
	...more,
});

export const answered = (item: string, passed = true): DayEvent => ({
	type: 'item.answered',
	check: 1,
	list: 'before-spraying',
	item,
	answer: 'done',
	passed,
});

export const checkBegan = (
	list: string,
	items: readonly string[],
	size: 'full' | 'short' | null = null,
	face: string | null = null,
	coat: number | null = null,
): EventOf<'check.began'> => ({ type: 'check.began', check: 1, list, size, items: [...items], face, coat });

export const passedOver = (
	rule: string,
	face: string | null = null,
	more: Partial<EventOf<'override.given'>> = {},
): DayEvent => ({
	type: 'override.given',
	rule,
	reason: 'the owner accepts it',
	face,
	coat: face === null ? null : 1,
	...more,
});

/** Every place of the longest list before a coat of a face. */
const placesOn = ({ input }: Plan, id: string): number[] => {
	const coats = input.faces.find(face => face.id === id)?.coats ?? [];
	return [...Array(Math.max(0, ...coats.map(({ prep }) => prep.length))).keys()];
};

/** Steps that a reason leaves out: those of its lists, and two that every walk tries. */
const stepsOn = ({ input }: Plan, id: string): Prep[] => {
	const coats = input.faces.find(face => face.id === id)?.coats ?? [];
	const cleaned = coats.flatMap(coat => coat.cleaned ?? []);
	return [...new Set<Prep>(['sand', 'tack', ...coats.flatMap(({ prep }) => prep), ...cleaned])];
};

/** Reasons for a rule of a face, with and without what stood on the screen. */
const shown = (plan: Plan, id: string): Record<string, readonly Partial<EventOf<'override.given'>>[]> => ({
	window: [{ window: 'wait' }, { window: 'sand' }, { window: 'spray' }],
	prep: stepsOn(plan, id).flatMap(step => [
		{ step },
		{ step, place: null },
		...placesOn(plan, id).map(place => ({ step, place })),
	]),
});
const reasonsFor = (plan: Plan, rule: string, id: string): DayEvent[] =>
	[{}, ...(shown(plan, id)[rule] ?? [])].map(more => passedOver(rule, id, more));

/** Stages told of a face, by each place of its lists, by none, and as older days did, without a word of it. */
const stagesOn = (plan: Plan, id: string, stages: readonly Prep[]): DayEvent[] =>
	stages.flatMap(stage =>
		[undefined, null, ...placesOn(plan, id)].map(place => ({
			type: 'stage.done' as const,
			face: id,
			stage,
			grit: null,
			...(place !== undefined && { place }),
		})),
	);

/** Everything that can be keyed in a list or a gun check, in and out of place. */
const keyed: readonly DayEvent[] = [
	...['supplied-air', 'filter-mask', 'none'].map(kind => read('breathing', kind, kind !== 'none')),
	...['tall', 'wide', 'round'].map(shape => read('pattern', shape, true)),
	read('pattern', 'tall', false),
	...[true, false].flatMap(matched => [
		read('batch', 'A', matched),
		read('card', 'KT', matched),
		read('horns', 'level', matched),
	]),
	...['mask', 'batch', 'pattern', 'card', 'gun'].map(item => answered(item)),
	answered('gun', false),
	...['mask', 'batch', 'pattern', 'card', 'gun', 'cup'].map(rule => passedOver(rule)),
	read('one-go', 'yes', true),
	read('set-up', 'soft', false, { faces: ['lid'], face: 'lid' }),
	read('last-face', 'part', true),
	read('which-face', 'lid', true),
];

const began = ({ input, full, short, vary }: Plan): DayEvent[] => {
	const [first] = input.faces;
	const id = first?.id ?? '';
	const wrong = [
		[],
		['pattern'],
		['mask', 'batch'],
		['mask', 'pattern'],
		['pattern', 'batch', 'mask'],
		['gun'],
	];
	const lists = [checkBegan('before-spraying', ['mask']), checkBegan('clean-up', ['gun'])];
	return [
		...(vary.has('book') || full.includes('gun') ? lists : lists.slice(0, 1)),
		...wrong.map(items => checkBegan('gun-check', items, 'full', id, 1)),
		checkBegan('gun-check', ['mask', 'batch'], 'short', id, 1),
		checkBegan('gun-check', full, null, id, 1),
		checkBegan('gun-check', full, 'full', null),
		checkBegan('gun-check', full, 'full', 'nobody', 1),
		...input.faces.flatMap(face => [
			checkBegan('gun-check', full, 'full', face.id, 1),
			checkBegan('gun-check', short, 'short', face.id, 1),
		]),
	];
};

const startOfBatch = (batch: string, material: string): DayEvent => ({
	type: 'batch.started',
	batch,
	material,
	ratio: { base: 2, hardener: 1, reducer: 0 },
	by: 'volume',
	make_mL: 200,
});

const poured = (batch: string, component: Component, found: 'short' | 'right' | 'over'): DayEvent => ({
	type: 'batch.poured',
	batch,
	component,
	can: 'red',
	found,
});

const both: readonly Component[] = ['base', 'hardener'];
const beside: readonly Component[] = ['reducer', 'accelerator', 'flattener'];

/** Everything that can be told of one batch, in and out of place. */
export const ofBatch = (
	batch: string,
	materials: readonly string[],
	order: readonly string[],
): DayEvent[] => [
	...materials.map(material => startOfBatch(batch, material)),
	...[true, false].map(matched => read('can', matched ? 'red' : 'blue', matched, { batch })),
	...(['stir', 'strain'] as const).map((step): DayEvent => ({ type: 'batch.stepped', batch, step })),
	...[...both, ...beside.filter(component => order.includes(component))].flatMap(component => [
		...(['short', 'right', 'over'] as const).map(found => poured(batch, component, found)),
		...(['before', 'short', 'right', 'over', 'unknown'] as const).map(
			(found): DayEvent => ({ type: 'batch.found', batch, component, found }),
		),
	]),
	...[true, false, undefined].map(
		(stood): DayEvent => ({ type: 'batch.stood', batch, ...(stood !== undefined && { facts: { stood } }) }),
	),
	...[true, false].map(
		(fits): DayEvent => ({ type: 'cup.timed', batch, cup: 'ford4', seconds: 16, tempC: 20, fits }),
	),
	{ type: 'batch.ready', batch, volume_mL: 200 },
	{ type: 'batch.discarded', batch, why: 'past its life' },
	...[true, false].map((refill): DayEvent => ({ type: 'batch.loaded', batch, volume_mL: 200, refill })),
];

/** Everything that can be told of one face besides its start. */
export function ofFace(plan: Plan, id: string): DayEvent[] {
	const { input, vary, rules, stages: only } = plan;
	const isWiped = input.faces.some(({ coats }) => coats.some(({ cleaned }) => cleaned?.includes('wipe')));
	const stages = ['sand', 'scuff', 'tack', ...(isWiped ? (['wipe'] as const) : [])] as const;
	const steps = ['set-up', 'sand', 'clean', 'respray', 'no-coat'] as const;
	const coats =
		(input.faces.find(face => face.id === id)?.coats.length ?? 0) +
		rules.filter(rule => rule === 'coats').length;
	const on = { face: id, coat: 1 };
	return [
		...Array.from({ length: coats }, (_, n) => n + 1).flatMap(coat =>
			(['all', 'part', 'none'] as const).map(
				(extent): DayEvent => ({
					type: 'face.ended',
					face: id,
					coat,
					extent,
					lastStroke: null,
					estimated: false,
				}),
			),
		),
		{ type: 'face.late', ...on },
		{ type: 'edge.left', ...on },
		...[undefined, [id], ['another']].map(
			(faulty): DayEvent => ({
				type: 'part.setAside',
				part: id,
				faces: [id],
				...(faulty && { faulty }),
				why: 'run',
			}),
		),
		...stagesOn(plan, id, only ?? (vary.has('prep') ? stages : ['fill'])),
		...[true, false]
			.slice(0, vary.has('touch') ? 2 : 1)
			.map(matched => read('touch', 'tacky', vary.has('touch') && matched, { faces: [id], face: id })),
		...(vary.has('rework') ? steps : steps.slice(1, 2)).flatMap(step =>
			[true, false, undefined].map(
				(due): DayEvent => ({
					type: 'rework.done',
					face: id,
					step,
					...(due !== undefined && { facts: { due } }),
				}),
			),
		),
		...rules.flatMap(rule => reasonsFor(plan, rule, id)),
	];
}

/**
 * A coat beyond one beyond the plan: it asks for what the last of the plan asks for, like the one before it, so the
 * search goes no further. The chart itself has no such end.
 */
export const isTooMany = ({ input }: Plan, shadow: SprayedFace | undefined, event: DayEvent): boolean =>
	event.type === 'override.given' &&
	event.rule === 'coats' &&
	(shadow?.laid ?? 0) > (input.faces.find(({ id }) => id === event.face)?.coats.length ?? 0);

export const airRead: DayEvent = {
	type: 'air.read',
	airC: 20,
	humidity: 0.5,
	surfaceC: 20,
	dewPointC: 9,
	spray: true,
	reasons: [],
};

/** Records that the book reads, and the charts only in their place. */
const bookOnly: readonly DayEvent[] = [
	{ type: 'day.planned', stage: 0, coat: 1, faces: ['lid'], order: 'sheet' },
	{ type: 'window.set', face: 'lid', coat: 1, surfaceC: 20, windows: [] },
	{ type: 'window.moved', face: 'nobody', coat: 1, to: 'spray' },
	{ type: 'clock.set', stepMs: -1000 },
	{ type: 'trigger.on' },
	{ type: 'trigger.off' },
	{ type: 'film.read', face: 'lid', coat: 1, by: 'comb' },
	{ type: 'photo.kept', face: 'lid', coat: 1, where: 'photo' },
	{ type: 'face.judged', face: 'lid', coat: 1, verdict: 'cleared', reason: 'seen' },
];

const gunTold: readonly DayEvent[] = [
	{ type: 'fault.seen', fault: 'run', face: 'lid', coat: 1 },
	{ type: 'fault.seen', fault: 'spits', gun: true, remedy: 'tighten-tip' },
	{ type: 'gun.set', horns: 'upright', pressure_kPa: null, fanHeight_mm: null, fluid: null },
];

const breaks = ({ vary }: Plan): DayEvent[] => {
	const kinds = vary.has('kinds') ? breakKindSchema.options : (['hold', 'restart'] as const);
	const whys = vary.has('kinds') ? unknownWhySchema.options : (['cap-turn', 'gun-fault'] as const);
	return [
		...kinds.map((kind): DayEvent => ({ type: 'break.began', kind, by: 'painter' })),
		...(vary.has('long') ? [true, false, undefined] : [false, undefined]).map(
			(long): DayEvent => ({
				type: 'break.ended',
				kind: 'hold',
				by: 'painter',
				...(long !== undefined && { facts: { long } }),
			}),
		),
		...whys.map((why): DayEvent => ({ type: 'gun.unknown', why })),
	];
};

const due = '2027-03-02T09:00:00.000Z';

/** What can be put to a day whatever it knows. */
function always(plan: Plan): DayEvent[] {
	const { input, letters, vary, rules } = plan;
	const materials = [...new Set(input.faces.flatMap(({ coats }) => coats.map(({ material }) => material)))];
	const faces = input.faces.map(({ id }) => id);
	const orders = materials.flatMap(id => [...(input.materials[id]?.order ?? [])]);
	return [
		...breaks(plan),
		...gunTold,
		...(vary.has('book') ? bookOnly : []),
		...(rules.includes('air') ? [airRead] : []),
		...(vary.has('marks') ? [passedOver('marks')] : []),
		...keyed,
		...began(plan),
		...letters.flatMap(letter => ofBatch(letter, [...materials, 'nothing'], orders)),
		{ type: 'cup.emptied', volume_mL: 0, why: 'flushed' },
		...faces.flatMap(id => ofFace(plan, id)),
		...(windowsMoveFreely(plan) ? faces.flatMap(id => standingsIn(plan).map(to => moved(id, to))) : []),
		{ type: 'part.setAside', part: 'all', faces, why: 'rain' },
		...faces.map((id): DayEvent => ({ type: 'part.setAside', part: 'all', faces, faulty: [id], why: 'run' })),
		{ type: 'wait.began', face: null, coat: null, due, why: 'flash' },
		...[null, ...faces].flatMap(face =>
			[true, false, undefined].map(
				(over): DayEvent => ({
					type: 'wait.ended',
					face,
					coat: face === null ? null : 1,
					due,
					...(over !== undefined && { facts: { due: over } }),
				}),
			),
		),
		{ type: 'day.closed', job: 'job', why: 'early' },
	];
}

/** The check as passed, and spoilt in one way after another. */
function passes(plan: Plan, shadow: Shadow): DayEvent[] {
	const { asked, cup } = shadow;
	const horns = wantedBy(plan, shadow, asked?.face ?? null)?.horns ?? 'level';
	const pass = (more: Partial<EventOf<'gun.checked'>> = {}): DayEvent => ({
		type: 'gun.checked',
		check: 1,
		size: asked?.size ?? 'full',
		face: asked?.face ?? plan.input.faces[0]?.id ?? '',
		coat: 1,
		cup: [...cup],
		horns,
		tilt: 0,
		facts: { settled: true },
		...more,
	});
	if (asked === null) return [pass()];
	return [
		pass(),
		pass({ size: asked.size === 'full' ? 'short' : 'full' }),
		pass({ check: 2 }),
		pass({ cup: [] }),
		pass({ cup: cup.map(() => 'Z') }),
		pass({ horns: horns === 'level' ? 'upright' : 'level' }),
		pass({ facts: { settled: false } }),
		pass({ facts: {} }),
	];
}

/** Check and mixing as one step each: gone through, or spoilt where it matters most. */
function collapsed(plan: Plan, shadow: Shadow): Move[] {
	const { input, full, short, letters, vary } = plan;
	const mask = read('breathing', 'supplied-air', true);
	const filter = read('breathing', 'filter-mask', true);
	const asks = (size: 'full' | 'short', face: string, fits: boolean): Move => {
		const wanted = wantedBy(plan, shadow, face);
		const other = wanted?.pattern === 'tall' ? 'wide' : 'tall';
		return [
			checkBegan('gun-check', size === 'full' ? full : short, size, face, 1),
			...(size === 'full' ? [mask] : []),
			read('batch', 'A', true),
			read('pattern', fits ? (wanted?.pattern ?? 'tall') : other, fits),
		];
	};
	const can = (batch: string) => read('can', 'red', true, { batch });
	const mixes = (letter: string, material: string): Move[] => {
		const first: DayEvent[] = [startOfBatch(letter, material), can(letter), poured(letter, 'base', 'right')];
		const both: DayEvent[] = [...first, can(letter), poured(letter, 'hardener', 'right')];
		return [
			both,
			[...first, can(letter), { type: 'break.began', kind: 'hold', by: 'painter' }],
			[...both, { type: 'batch.ready', batch: letter, volume_mL: 200 }],
			...(vary.has('marks') ? [[startOfBatch(letter, material), passedOver('marks'), ...both.slice(1)]] : []),
			[can(letter), poured(letter, 'hardener', 'right')],
			[
				can(letter),
				poured(letter, 'hardener', 'right'),
				{ type: 'batch.ready', batch: letter, volume_mL: 200 },
			],
		];
	};
	const materials = [...new Set(input.faces.flatMap(({ coats }) => coats.map(({ material }) => material)))];
	return [
		[checkBegan('before-spraying', ['mask']), mask],
		[checkBegan('before-spraying', ['mask']), filter],
		...input.faces.flatMap(({ id }) =>
			(['full', 'short'] as const).flatMap(size => [
				asks(size, id, true),
				asks(size, id, false),
				[checkBegan('gun-check', full, size, id, 1), filter],
			]),
		),
		...letters.flatMap(letter => materials.flatMap(material => mixes(letter, material))),
	];
}

/** Told in the steps of mixing and checking that are collapsed: their outcomes are moves of their own. */
const within: readonly DayEvent['type'][] = [
	'check.began',
	'batch.started',
	'batch.poured',
	'batch.stepped',
	'cup.timed',
	'item.answered',
];
const isWithin = (event: DayEvent) =>
	within.includes(event.type) ||
	(event.type === 'batch.found' && event.found !== 'before' && event.found !== 'unknown') ||
	(event.type === 'reading.taken' && ['can', 'breathing', 'batch', 'horns', 'card'].includes(event.feature));

/**
 * All moves of a plan, by where the day stands and what is known of it.
 * @param lists whether the chart lists a type of event there at all: where it does not, no such event is put
 */
export function alphabetOf(
	plan: Plan,
	lists: (value: string, type: DayEvent['type']) => boolean,
): (value: string, shadow: Shadow) => readonly Move[] {
	const isCollapsed = plan.vary.has('collapsed');
	const fixed: Move[] = always(plan)
		.filter(event => !isCollapsed || !isWithin(event))
		.map(event => [event]);
	const byValue = new Map<string, readonly Move[]>();
	const listed = (value: string, moves: readonly Move[]) =>
		moves.filter(([first]) => first !== undefined && lists(value, first.type));
	return (value, shadow) => {
		const known = byValue.get(value) ?? listed(value, fixed);
		byValue.set(value, known);
		const atGun = value === 'ready' || value === 'spraying';
		const others = [
			...(lists(value, 'face.started') ? starts(plan, shadow, atGun) : []),
			...(lists(value, 'gun.checked') ? passes(plan, shadow).map(event => [event]) : []),
			...(isCollapsed ? listed(value, collapsed(plan, shadow)) : []),
		];
		return others.length > 0 ? [...known, ...others] : known;
	};
}
