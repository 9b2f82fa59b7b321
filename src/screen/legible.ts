import type { Ask, Instruction, View } from '../day/view.ts';
import { arrange } from './arrange.ts';
import type { GlyphStyle } from './letters.ts';
import { nothingPassing, type Size } from './passing.ts';
import { readingDistance_m } from './reading-distance.ts';

/** From how far the screens of a day can be read in a window: what a painter wants to know who sets one up. */

const asked = (state: string, ask: Ask, corners: View['corners'], steps: Instruction[] = []): View => ({
	at: '1970-01-01T00:00:00.000Z',
	zone: 'UTC',
	state,
	ask,
	say: 'Pattern: measure the burst along its length. How long is it there?',
	lines: [
		'Gun held as for wheel-arch cover outside.',
		'That lays about 4 times the film on one line: it runs.',
	],
	unit: null,
	corners,
	face: 'wheel-arch cover/outside',
	coat: 2,
	coats: 3,
	do: steps,
	timers: [],
	faces: [],
	open: [],
	rehearsal: false,
});

const choice = (text: string) => ({ code: text, text });
const four: View['corners'] = {
	topLeft: choice('SUPPLIED AIR'),
	topRight: choice('FILTER MASK'),
	bottomLeft: choice('HEAVY MIDDLE'),
	bottomRight: choice('ONE SIDE'),
};
const paired: View['corners'] = {
	topLeft: choice('SUPPLIED, AT MARK'),
	topRight: choice('FILTER, AT MARK'),
	bottomLeft: choice('NOTHING'),
	bottomRight: choice('OFF MARK'),
};
const two: View['corners'] = { topLeft: choice('EMPTY THE CUP'), bottomLeft: choice('DONE') };

/** Screens whose words are the longest of a day, and have least room. */
const crowded: readonly View[] = [
	asked('gunCheck.mask', 'breathing', four),
	asked('list.before-spraying.mask', 'pair', paired),
	asked('gunCheck.pattern', 'pattern', four),
	asked('trouble', 'trouble', four),
	asked('gunCheck.gauge.differs', 'do', two, [{ code: 'turn-regulator', to: 'down' }]),
	asked('gunCheck.set', 'do', two, [
		{ code: 'set-horns', to: 'upright' },
		{ code: 'set-fan', to: 9.8, unit: 'in' },
	]),
	asked('gunCheck.breathing.differs', 'do', two, [{ code: 'put-on', to: 'supplied-air' }]),
	asked('mix.wrong-can', 'do', two, [{ code: 'put-back', to: 'ladder' }]),
	asked('ready', 'go', { topLeft: choice('START'), topRight: choice('TROUBLE') }),
];

/**
 * From how far the one word of every screen of a day can be read, at 40 minutes of arc.
 *
 * @param screen_mm height of the terminal's picture
 * @returns metres, to the tenth below
 */
export function readFrom_m(size: Size, style: GlyphStyle, screen_mm: number): number {
	const rows = Math.min(...crowded.map(view => arrange(view, size, nothingPassing, style).wordRows));
	return Math.floor(readingDistance_m(screen_mm, size.rows, rows) * 10) / 10;
}

/** The same in a few words, beside what the shop wants. */
export function readFromWords(read_m: number, wanted_m: number): string {
	const words = `Words read from ${read_m.toFixed(1)} m`;
	return read_m < wanted_m ? `${words}, not ${wanted_m.toFixed(1)} m` : words;
}
