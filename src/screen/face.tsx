import type { ReactElement } from 'react';
import type { View } from '../day/view.ts';
import { type Arrangement, arrange, leastColumns, leastRows, tooSmall } from './arrange.ts';
import { openFrames } from './frames.tsx';
import type { GlyphStyle } from './letters.ts';
import { type Painted, paint } from './painter.ts';
import type { Passing } from './passing.ts';
import { Screen, TooSmall } from './screen.tsx';
import type { Terminal } from './terminal.ts';

/** Draws views on a terminal, each as few bytes as it takes. */
export type Face = {
	show(view: View, passing: Passing): void;
	/** Nothing is known any more of what the terminal shows. */
	forget(): void;
	close(): void;
};

const same = (one: Arrangement | null, other: Arrangement): boolean =>
	one !== null && JSON.stringify(one) === JSON.stringify(other);

/** Opens the face of the program on a terminal that has been entered. */
export function openFace(terminal: Terminal, style: GlyphStyle, onError: (error: unknown) => void): Face {
	let painted: Painted | null = null;
	let arranged: Arrangement | null = null;
	const frames = openFrames(onError);
	const draw = (element: ReactElement, reverse: boolean) => {
		const size = terminal.size();
		const next: Painted = { ...size, lines: frames.show(element, size.columns), reverse };
		terminal.write(paint(painted, next));
		painted = next;
	};
	return {
		show(view, passing) {
			const size = terminal.size();
			const reverse = view.ask === 'hold';
			if (tooSmall(size)) {
				arranged = null;
				draw(<TooSmall {...size} least={`${leastColumns} x ${leastRows}`} />, reverse);
				return;
			}
			const next = arrange(view, size, passing, style);
			if (painted?.reverse === reverse && same(arranged, next)) return;
			arranged = next;
			draw(<Screen of={next} />, reverse);
		},
		forget() {
			painted = null;
			arranged = null;
		},
		close: () => frames.close(),
	};
}
