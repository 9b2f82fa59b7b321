import { createElement } from 'react';
import type { View } from '../../src/day/view.ts';
import { arrange } from '../../src/screen/arrange.ts';
import { openFrames } from '../../src/screen/frames.tsx';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { keyNames } from '../../src/screen/keys/names.ts';
import type { GlyphStyle } from '../../src/screen/letters.ts';
import { nothingPassing, type Passing, type Size } from '../../src/screen/passing.ts';
import { Screen } from '../../src/screen/screen.tsx';

/** Nothing is half done; the keys of the US layout are in force. */
export const usKeys: Passing = { ...nothingPassing, keys: keyNames(layoutOf('us', null)) };

const frames = openFrames(error => {
	throw error;
});

/** The frame that a view makes at a size, as lines. */
export function frameOf(
	view: View,
	size: Size,
	passing: Passing = usKeys,
	style: GlyphStyle = 'half',
): string[] {
	return frames.show(createElement(Screen, { of: arrange(view, size, passing, style) }), size.columns);
}
