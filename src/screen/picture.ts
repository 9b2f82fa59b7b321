import type { View } from '../day/view.ts';
import type { Horns, Stroke } from '../job/job.ts';
import { drawPixels, type GlyphStyle } from './letters.ts';

/**
 * The gun's nose with its two horns, seen with the gun upright, and the face with the fan and the stroke on it.
 * What is still to be read is never drawn: while horns are being set the nose alone, after the check all of it.
 */

const noses: Record<Horns, string[]> = {
	level: [
		'...................',
		'......#######......',
		'....##.......##....',
		'.###...........###.',
		'###.............###',
		'###......#......###',
		'###.............###',
		'.###...........###.',
		'....##.......##....',
		'......#######......',
		'...................',
		'...................',
	],
	upright: [
		'.......#####.......',
		'.......#####.......',
		'......#######......',
		'....##.......##....',
		'....#.........#....',
		'....#....#....#....',
		'....#.........#....',
		'....##.......##....',
		'......#######......',
		'.......#####.......',
		'.......#####.......',
		'...................',
	],
};

const fans: Record<'tall' | 'wide', string[]> = {
	tall: [
		'#.#.#.#.#.#.#.#.#.#',
		'.........#.........',
		'#.......###.......#',
		'........###........',
		'#..#....###....#..#',
		'..##....###....##..',
		'####....###....####',
		'..##....###....##..',
		'#..#....###....#..#',
		'........###........',
		'#........#........#',
		'.#.#.#.#.#.#.#.#.#.',
	],
	wide: [
		'#.#.#.#.#.#.#.#.#.#',
		'.........#.........',
		'#.......###.......#',
		'.......#####.......',
		'#.................#',
		'....###########....',
		'#..#############..#',
		'....###########....',
		'#.................#',
		'.......#####.......',
		'#.......###.......#',
		'.#.#.#.#.#.#.#.#.#.',
	],
};

const strokeWords: Record<Stroke, string> = {
	'side-to-side': 'side to side',
	'up-and-down': 'up and down',
	'to-and-fro': 'to and fro',
};

const captioned = (rows: string[], words: string, width: number): string[] => {
	const before = ' '.repeat(Math.max(0, Math.floor((width - words.length) / 2)));
	return [...rows, `${before}${words}`.padEnd(width)];
};

const nose = (horns: Horns, style: GlyphStyle) =>
	captioned(drawPixels(noses[horns], style), `horns ${horns}`, 19);

/** The way the fan lies on the work: tilt + (horns level ? upright : across), modulo a half turn. */
const fanLies = (horns: Horns, tilt: -90 | 0 | 90): 'tall' | 'wide' =>
	(horns === 'level') === (tilt === 0) ? 'tall' : 'wide';

/** The picture that belongs to a view, as rows of equal width, or none. */
export function pictureOf(view: View, style: GlyphStyle): string[] {
	if (view.ask === 'do') {
		const horns = view.do.find(({ code }) => code === 'set-horns')?.to;
		return horns === 'level' || horns === 'upright' ? nose(horns, style) : [];
	}
	if (!view.gun || (view.ask !== 'go' && view.ask !== 'spraying')) return [];
	const { horns, tilt, stroke } = view.gun;
	const face = captioned(drawPixels(fans[fanLies(horns, tilt)], style), strokeWords[stroke], 19);
	return nose(horns, style).map((row, index) => `${row}   ${face[index] ?? ''}`);
}
