import type { Corner } from '../../day/view.ts';

/** The keys of each corner block, as characters or key names. */
export type Blocks = Record<Corner, string[]>;
export type LayoutName = 'us' | 'german' | 'french' | 'learned';
/** Keys that somebody has taught; `hold` beside the space bar. */
export type LearnedKeys = Blocks & { hold: string[] };

/**
 * Only keys that sit at the same place on US, German and French keyboards, and the ends of the bottom row where
 * each layout has its own. Between two blocks there is always a dead key: t y u between the upper two, the home
 * row between upper and lower, b n m between the lower two.
 */
const upper = { topLeft: ['e', 'r'], topRight: ['i', 'o', 'p'], bottomLeft: ['x', 'c', 'v'] };

export const builtIn: Record<Exclude<LayoutName, 'learned'>, Blocks> = {
	us: { ...upper, bottomRight: [',', '.', '/'] },
	german: { ...upper, bottomRight: [',', '.', '-'] },
	french: { ...upper, bottomRight: [';', ':', '!'] },
};

/** The corners of a number pad, as the digits most terminals send for them. */
export const padDigits: Record<string, Corner> = {
	'7': 'topLeft',
	'9': 'topRight',
	'1': 'bottomLeft',
	'3': 'bottomRight',
};

/** The same, and what a pad without its number lock says, where it is told apart. */
export const padCorners: Record<string, Corner> = {
	...padDigits,
	home: 'topLeft',
	'page-up': 'topRight',
	end: 'bottomLeft',
	'page-down': 'bottomRight',
};

export type Layout = { blocks: Blocks; hold: string[]; pad: boolean };

/**
 * The keys in force.
 *
 * @param learned keys from `fanwise keys`; without any, the learned layout is the US one
 */
export function layoutOf(name: LayoutName, learned: LearnedKeys | null): Layout {
	if (name !== 'learned') return { blocks: builtIn[name], hold: ['space'], pad: true };
	if (!learned) return { blocks: builtIn.us, hold: ['space'], pad: true };
	const { hold, ...blocks } = learned;
	return { blocks, hold: ['space', ...hold], pad: false };
}
