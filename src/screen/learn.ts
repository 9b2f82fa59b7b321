import { type Corner, corners } from '../day/view.ts';
import type { Key } from './keys/key.ts';
import type { LayoutName, LearnedKeys } from './keys/layouts.ts';
import { keysTouch } from './keys/places.ts';

/**
 * Teaching the keys: for each corner, and for a second hold beside the space bar, the keys that are to be its
 * block. Pure; the screen that asks is another matter.
 */

export type Learning = {
	/** Whose keys are being taken; null when all are. */
	at: Corner | 'hold' | null;
	keys: LearnedKeys;
};

export type LearnRefusal =
	/** The space bar is hold already. */
	| 'space'
	/** A combination, a paste, or a key that the terminal cannot name. */
	| 'no-key'
	/** It belongs to another corner. */
	| 'taken'
	/** A glove could strike it together with a key of another corner. */
	| 'touches'
	/** A corner has at least one key. */
	| 'none-yet';

export const learningStart: Learning = {
	at: 'topLeft',
	keys: { topLeft: [], topRight: [], bottomLeft: [], bottomRight: [], hold: [] },
};

const blocks = [...corners, 'hold'] as const;
type BlockName = (typeof blocks)[number];

/** What each refusal is said as. */
export const learnTexts: Record<LearnRefusal, string> = {
	space: 'the space bar is hold already',
	'no-key': 'this key cannot be told from others',
	taken: 'this key belongs to another corner',
	touches: 'too near to another corner',
	'none-yet': 'press a key for this corner first',
};

const following = (at: BlockName): BlockName | null => blocks[blocks.indexOf(at) + 1] ?? null;

/** The name under which a key is learned, or null where it cannot be. */
function nameOf(key: Key): string | null {
	if (key.ctrl || key.alt || key.key === 'unknown' || key.key === 'paste' || key.key === 'key-report')
		return null;
	return key.key.toLowerCase();
}

function refusalOf(name: string, at: BlockName, keys: LearnedKeys, geometry: Geometry): LearnRefusal | null {
	if (name === 'space') return 'space';
	const others = blocks.filter(block => block !== at).flatMap(block => keys[block]);
	if (others.includes(name)) return 'taken';
	return others.some(other => keysTouch(name, other, geometry)) ? 'touches' : null;
}

type Geometry = Exclude<LayoutName, 'learned'>;

/**
 * Takes one key. A new key joins the block being taught; one already in it ends the block. The hold block may stay
 * empty: Enter ends it.
 *
 * @param geometry the keyboard whose key places tell which keys touch
 */
export function learnKey(
	state: Learning,
	key: Key,
	geometry: Geometry,
): { state: Learning; refused: LearnRefusal | null } {
	const { at, keys } = state;
	if (at === null || key.kind !== 'press') return { state, refused: null };
	const name = nameOf(key);
	if (name === null) return { state, refused: 'no-key' };
	const done = { state: { at: following(at), keys }, refused: null };
	if (keys[at].includes(name)) return done;
	if (name === 'enter' && at === 'hold') return done;
	const refused = refusalOf(name, at, keys, geometry);
	if (refused) return { state, refused };
	return { state: { at, keys: { ...keys, [at]: [...keys[at], name] } }, refused: null };
}

/** Whether a set of keys could be learned: every corner has a key, none is shared, none of two corners touch. */
export function keysStandApart(keys: LearnedKeys, geometry: Geometry): LearnRefusal | null {
	for (const block of blocks) {
		if (block !== 'hold' && keys[block].length === 0) return 'none-yet';
		for (const name of keys[block]) {
			const refused = refusalOf(name, block, keys, geometry);
			if (refused) return refused;
		}
	}
	return null;
}
