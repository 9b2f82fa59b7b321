import { type Corner, corners, type View } from '../day/view.ts';
import type { Key } from './keys/key.ts';
import type { LayoutName, LearnedKeys } from './keys/layouts.ts';
import { learningStart, learnKey, learnTexts } from './learn.ts';
import type { GlyphStyle } from './letters.ts';
import { nothingElse } from './nothing-else.ts';
import { nothingPassing } from './passing.ts';
import { onStage, type StagePorts } from './stage.ts';

const cornerWords: Record<Corner, string> = {
	topLeft: 'top left',
	topRight: 'top right',
	bottomLeft: 'bottom left',
	bottomRight: 'bottom right',
};

const namesOf = (keys: string[]) => keys.join(' ').toUpperCase();

/** The screen of a corner being taught. */
export function learningView({ at, keys }: typeof learningStart, instant: string): View {
	const shown = corners.flatMap(corner => {
		const text = corner === at && keys[corner].length === 0 ? '?' : namesOf(keys[corner]);
		return text === '' ? [] : [[corner, { code: corner, text }] as const];
	});
	const say =
		at === 'hold'
			? 'Hold: press a second key for it, or Enter for none.'
			: `Press the keys for ${at === null ? 'no corner' : cornerWords[at]}, then one of them again.`;
	return {
		at: instant,
		state: `keys.${at}`,
		ask: 'choose',
		say,
		lines: [
			'A dead key between two corners, more with gloves.',
			'Escape begins again. Ctrl-C changes nothing.',
		],
		corners: Object.fromEntries(shown),
		...nothingElse(),
	};
}

/**
 * Teaches the keys of a keyboard, pad or pedal, corner by corner, on a terminal.
 *
 * @param geometry the keyboard whose key places tell which keys touch
 * @returns the keys, or null where whoever taught them went away before the end
 */
export async function teachKeys(
	ports: StagePorts,
	geometry: Exclude<LayoutName, 'learned'>,
	style: GlyphStyle,
): Promise<LearnedKeys | null> {
	let learning = learningStart;
	let refused: string | null = null;
	const left = await onStage(ports, style, ({ face, leave, suspend }) => {
		const draw = () =>
			face.show(learningView(learning, new Date(0).toISOString()), { ...nothingPassing, notice: refused });
		const key = (struck: Key) => {
			if (struck.ctrl && struck.key === 'c') return leave('left');
			if (struck.ctrl && struck.key === 'z') return suspend();
			const again = struck.key === 'escape' && struck.kind === 'press';
			const step = again ? { state: learningStart, refused: null } : learnKey(learning, struck, geometry);
			learning = step.state;
			refused = step.refused && learnTexts[step.refused];
			if (learning.at === null) leave('closed');
			else draw();
		};
		draw();
		return { key, draw, refresh: draw, stood() {}, cutOff() {}, close() {} };
	});
	return left.why === 'closed' ? learning.keys : null;
}
