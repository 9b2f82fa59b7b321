import { createElement } from 'react';
import type { View } from '../../src/day/view.ts';
import { arrange, nothingPassing, type Passing, type Size } from '../../src/screen/arrange.ts';
import { openFrames } from '../../src/screen/frames.tsx';
import type { GlyphStyle } from '../../src/screen/letters.ts';
import { Screen } from '../../src/screen/screen.tsx';

const frames = openFrames(error => {
	throw error;
});

/** The frame that a view makes at a size, as lines. */
export function frameOf(
	view: View,
	size: Size,
	passing: Passing = nothingPassing,
	style: GlyphStyle = 'half',
): string[] {
	return frames.show(createElement(Screen, { of: arrange(view, size, passing, style) }), size.columns);
}
