import type { DayInput } from '../../machines/day.ts';
import type { CoatRule, FaceInput } from '../../machines/face.ts';
import type { MixStep } from '../../src/job/job.ts';

/** Days small enough to be walked whole. Each varies one thing that another leaves alone. */

export type Variation =
	/** Faces are set aside, and come back by their own line. */
	| 'rework'
	/** The tape tab is touched before the second coat. */
	| 'touch'
	/** Stages on a face: scuffed, sanded, wiped. */
	| 'prep'
	/** Records that only the book reads, everywhere. */
	| 'book'
	/** Every kind of break and every reason why the gun is unknown, where two of a kind stand for all elsewhere. */
	| 'kinds'
	/** The check, and mixing, as one step each: wholly gone through, or spoilt at its last item. */
	| 'collapsed';

export type Plan = {
	name: string;
	input: DayInput;
	letters: readonly string[];
	full: readonly string[];
	short: readonly string[];
	vary: ReadonlySet<Variation>;
	/** Rules of a face that a reason passes over. */
	rules: readonly string[];
};

const level: CoatRule = {
	material: 'topcoat',
	horns: 'level',
	pattern: 'tall',
	fanHeight_mm: 250,
	prep: [],
	touch: false,
};
const upright: CoatRule = { ...level, horns: 'upright', pattern: 'wide' };

export const topcoat = { isocyanate: true, order: ['base', 'hardener', 'stand'] as readonly MixStep[] };
const primer = { isocyanate: false, order: ['base', 'hardener'] as readonly MixStep[] };

const face = (id: string, coats: readonly CoatRule[], more: Partial<FaceInput> = {}): FaceInput => ({
	id,
	part: id,
	coats,
	...more,
});

const twice = (rule: CoatRule, second: Partial<CoatRule> = {}): CoatRule[] => [rule, { ...rule, ...second }];

export const lid = face('lid', twice(level));
export const door = face('door', twice(upright));

function plan(name: string, faces: readonly FaceInput[], more: Partial<Plan> = {}): Plan {
	return {
		name,
		input: { faces, materials: { topcoat, primer } },
		letters: ['A'],
		full: ['mask', 'batch', 'pattern'],
		short: ['batch', 'pattern'],
		vary: new Set(),
		rules: [],
		...more,
	};
}

const varied = (...names: Variation[]) => ({ vary: new Set(names) });

/** Two faces that want other horns, two coats, one batch at a time. */
export const twoByTwo = plan('2 faces × 2 coats × 1 batch', [lid, door]);
export const twoBatches = plan('2 faces × 2 coats × 2 batches', [lid, door], { letters: ['A', 'B'] });
export const threeFaces = plan('3 faces × 2 coats × 2 batches', [lid, door, face('box', twice(level))], {
	letters: ['A', 'B'],
});
export const threeCollapsed: Plan = {
	...threeFaces,
	name: '3 faces × 2 coats × 2 batches, check and mixing collapsed',
	...varied('collapsed'),
};

/** One thing at a time varied, on faces few enough. */
export const variations: readonly Plan[] = [
	plan('records that only the book reads', [face('lid', [level])], varied('book', 'kinds')),
	plan('a stretch: two faces under the same fan', [lid, face('box', twice(level))], varied('collapsed')),
	plan('set aside, and back by its own line', [lid, door], varied('rework', 'collapsed')),
	plan(
		'the tape tab touched before coat 2',
		[face('lid', twice(level, { touch: true })), face('door', [upright])],
		varied('touch', 'rework', 'collapsed'),
	),
	plan(
		'work on the face before coat 2, and recoat windows that ask for it',
		[face('lid', twice(level, { prep: ['sand', 'tack'] })), face('door', [upright])],
		varied('prep', 'collapsed'),
	),
	...[['window'], ['prep', 'touch'], ['coats'], ['paint', 'air']].map(rules =>
		plan(
			`passed over with a reason: ${rules.join(', ')}`,
			[face('lid', twice(level, { prep: ['sand'], touch: true }))],
			{ rules, ...varied('touch', 'prep', 'collapsed') },
		),
	),
	plan(
		'two materials, one of them without isocyanate, and another fan height',
		[
			face('lid', [{ ...level, material: 'primer' }, level]),
			face('door', [{ ...upright, material: 'primer', fanHeight_mm: 180 }]),
		],
		{ letters: ['A', 'B'], ...varied('collapsed') },
	),
	plan(
		'a day that earlier days began: one coat on, one part aside',
		[
			face('lid', twice(level), { before: { laid: 1, done: ['sand'], aside: false } }),
			face('door', twice(upright), { before: { laid: 1, done: [], aside: true } }),
		],
		varied('rework', 'prep', 'collapsed'),
	),
	plan('the pattern read by card', [lid, door], {
		full: ['mask', 'batch', 'card'],
		short: ['batch', 'card'],
	}),
];
