import type { DayInput } from '../../machines/day-context.ts';
import type { CoatRule, FaceInput } from '../../machines/face.ts';
import type { EventOf, Facts } from '../../src/day/records.ts';
import type { MixStep, Prep } from '../../src/job/job.ts';

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
	/** A batch is read by finer marks than those of its pot, with a reason. */
	| 'marks'
	/** Breaks so long that the list before spraying is gone through again. */
	| 'long'
	/** Discarded batches keep their letters; elsewhere they are forgotten. */
	| 'discarded'
	/** The check, and mixing, as one step each: wholly gone through, or spoilt at its last item. */
	| 'collapsed';

/** The recoat window that a face is in. */
export type Standing = EventOf<'window.moved'>['to'];

export type Plan = {
	name: string;
	input: DayInput;
	letters: readonly string[];
	full: readonly string[];
	short: readonly string[];
	vary: ReadonlySet<Variation>;
	/** Rules of a face that a reason passes over. */
	rules: readonly string[];
	/** The only facts that a start carries, where they are not varied. */
	facts?: Facts;
	/** The only recoat window that a start finds, where they are not varied. */
	window?: Standing;
	/** The only stages recorded on a face, where they are not varied. */
	stages?: readonly Prep[];
};

/** Nothing stands against spraying. */
export const allGood = {
	air: 'ok',
	alive: true,
	thinned: true,
	fresh: true,
	lasts: true,
	enough: true,
	aged: false,
	wet: true,
} satisfies Facts;

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

/** One thing at a time varied, on faces few enough; the smallest first. */
export const variations: readonly Plan[] = [
	plan('the pattern read by card', [face('lid', [level])], {
		full: ['mask', 'batch', 'card'],
		short: ['batch', 'card'],
	}),
	plan('records that only the book reads', [face('lid', [level])], varied('book', 'kinds')),
	plan(
		'two faces that want other horns',
		[face('lid', [level]), face('door', [upright])],
		varied('collapsed'),
	),
	plan('away so long that the list is due again', [face('lid', twice(level))], varied('long', 'collapsed')),
	plan('one face set aside, and back by its own line', [face('lid', [level])], varied('rework', 'collapsed')),
	plan('one coat, passed over with a reason: air', [face('lid', [level])], {
		rules: ['air'],
		...varied('collapsed'),
	}),
	plan('another fan height', [face('lid', [level]), face('door', [{ ...level, fanHeight_mm: 180 }])], {
		...varied('collapsed'),
	}),
	plan('batches discarded', [face('lid', [level])], {
		letters: ['A', 'B'],
		...varied('discarded', 'collapsed'),
	}),
	...(
		[
			['window', 'wait', { wet: false }],
			['prep', 'spray', {}],
			['touch', 'spray', {}],
			['coats', 'spray', {}],
			['air', 'spray', { air: 'out' }],
		] as const
	).map(([rule, window, facts]) =>
		plan(
			`nothing but a reason helps: ${rule}`,
			[
				face('lid', [
					level,
					{ ...level, ...(rule === 'prep' && { prep: ['sand'] }), touch: rule === 'touch' },
				]),
			],
			{ rules: [rule], window, facts: { ...allGood, ...facts }, ...varied('collapsed') },
		),
	),
	...(
		[
			['scuff', 'scuff', false],
			['scuff', 'sand', false],
			['sand', 'sand', false],
			['spray', 'sand', true],
		] as const
	).map(([window, stage, touch]) =>
		plan(
			`nothing but work on the face helps: ${stage} where the window says ${window}`,
			[face('lid', touch ? twice(level, { touch }) : [level])],
			{ window, facts: allGood, stages: [stage], ...varied('collapsed') },
		),
	),
	plan('every step of mixing', [face('lid', [level])], {
		rules: ['cup'],
		input: {
			faces: [face('lid', [level])],
			materials: {
				topcoat: {
					isocyanate: true,
					order: ['stir', 'base', 'hardener', 'stir', 'stand', 'stir', 'reducer', 'stir', 'strain', 'cup'],
				},
			},
		},
	}),
	plan('a batch read by finer marks', [face('lid', [level])], varied('marks', 'collapsed')),
	plan('an item of the check passed over', [face('lid', [level])], {
		full: ['mask', 'gun', 'batch', 'pattern'],
		rules: ['gun'],
	}),
	plan(
		'the tape tab touched before coat 2',
		[face('lid', twice(level, { touch: true })), face('door', [upright])],
		varied('touch', 'collapsed'),
	),
	plan('a stretch: two faces under the same fan', [lid, face('box', twice(level))], varied('collapsed')),
	...[['window'], ['prep', 'touch'], ['coats'], ['air']].map(rules =>
		plan(
			`passed over with a reason: ${rules.join(', ')}`,
			[face('lid', twice(level, { prep: ['sand'], touch: true }))],
			{ rules, ...varied('touch', 'prep', 'collapsed') },
		),
	),
	plan(
		'a day that earlier days began: one coat on, one part aside',
		[
			face('lid', twice(level), { before: { laid: 1, done: [{ step: 'sand', place: null }], aside: false } }),
			face('door', twice(upright), { before: { laid: 1, done: [], aside: true } }),
		],
		varied('rework', 'prep', 'collapsed'),
	),
	plan(
		'work on the face before coat 2, some of it twice, and recoat windows that ask for it',
		[face('lid', twice(level, { prep: ['sand', 'tack', 'sand'] })), face('door', [upright])],
		varied('prep', 'collapsed'),
	),
	plan(
		'work on the face that no list has, and the wiping and tacking behind it',
		[face('lid', [{ ...level, cleaned: ['wipe', 'tack'] }])],
		varied('prep', 'collapsed'),
	),
	plan(
		'a part of two faces, one of them sound',
		[
			face('lid/top', [level], { part: 'lid' }),
			face('lid/rim', [{ ...level, prep: ['sand'] }], { part: 'lid' }),
		],
		{ facts: allGood, stages: ['sand'], ...varied('rework', 'collapsed') },
	),
	plan(
		'a day that earlier days began: a sound face out of line with the one that has a fault',
		[
			face('lid/top', twice(level), {
				part: 'lid',
				before: { laid: 1, done: [], aside: true, beside: false },
			}),
			face('lid/rim', twice(level, { prep: ['sand'] }), {
				part: 'lid',
				before: { laid: 1, done: [{ step: 'sand', place: 0 }], aside: false, beside: true },
			}),
		],
		{ facts: allGood, ...varied('rework', 'collapsed') },
	),
	plan('set aside, and back by its own line', [lid, face('door', [upright])], varied('rework', 'collapsed')),
	plan(
		'two materials, one of them without isocyanate',
		[face('lid', [{ ...level, material: 'primer' }]), face('door', [level])],
		{ letters: ['A', 'B'], window: 'spray', facts: allGood, ...varied('collapsed') },
	),
];

/**
 * Where a reason is given for a recoat window, windows move at any time. Elsewhere each is put right before the start
 * that reads it, and is no part of what tells two days apart: a move changes nothing else.
 */
export const windowsMoveFreely = ({ rules }: Pick<Plan, 'rules'>): boolean => rules.includes('window');
