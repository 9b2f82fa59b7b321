import { type Corner, corners } from '../../day/view.ts';
import type { Layout } from './layouts.ts';

/** The keys in force as they are named on a screen. */
export type KeyNames = Record<Corner, readonly string[]> & {
	/** The keys of hold, the space bar first. */
	hold: readonly string[];
};

const own: Record<string, string> = { escape: 'ESC', 'page-up': 'PG UP', 'page-down': 'PG DN' };

/** A key as it is printed on a keyboard. */
function nameOf(key: string): string {
	if ([...key].length > 1) return own[key] ?? key.toUpperCase().replace('-', ' ');
	const large = key.toUpperCase();
	return [...large].length > 1 ? key : large;
}

/** Names the keys of a layout, taught ones too. */
export function keyNames({ blocks, hold }: Layout): KeyNames {
	const named = corners.map(corner => [corner, blocks[corner].map(nameOf)] as const);
	const [topLeft, topRight, bottomLeft, bottomRight] = named.map(([, names]) => names);
	return {
		topLeft: topLeft ?? [],
		topRight: topRight ?? [],
		bottomLeft: bottomLeft ?? [],
		bottomRight: bottomRight ?? [],
		hold: hold.map(key => (key === 'space' ? key : nameOf(key))),
	};
}
