import { type Face, wantedHorns } from './truth.ts';

/**
 * What the painter has read, counted beside the program: before each pass it says whether that was enough.
 * Every message is one rule of the gun check.
 */

const second = ['gauge', 'horns', 'pattern-height', 'flooded', 'pair', 'level'];
const fitting = { level: 'tall', upright: 'wide' };

export type Ledger = {
	/** A break, a wait, another batch, a gun fault: nothing is known of the gun. */
	broke(): void;
	/** Long at ready: what was read is old. */
	aged(): void;
	/** A face has been sprayed, wholly or in part. */
	sprayed(face: Face): void;
	/** A reading that is true and fits, in the order they were taken. */
	read(feature: string): void;
	/** The level of the hardener in the pot with this letter was read. */
	hardener(letter: string): void;
	/** What forbids a start on this face from a cup with these batches; empty where nothing does. */
	against(face: Face, cup: readonly string[]): string[];
};

export function newLedger(): Ledger {
	let sinceBreak: string[] = [];
	let sincePass: string[] = [];
	let mustRead = true;
	let last: Face | null = null;
	const hardened = new Set<string>();

	const full = (face: Face): string[] => [
		...(sinceBreak.includes('breathing') ? [] : ['breathing gear was not read since the last break']),
		...(sinceBreak.includes('batch') ? [] : ['the batch letter was not read since the last break']),
		...(sinceBreak.some(one => second.includes(one))
			? []
			: ['no second feature was read since the last break']),
		...(sinceBreak.includes(`pattern ${fitting[wantedHorns[face]]}`)
			? []
			: [`no pattern that fits ${face} was read since the last break`]),
	];
	const short = (): string[] => [
		...(sincePass.includes('batch') ? [] : ['the batch letter was not read after the turn of the cap']),
		...(sincePass.at(-1)?.startsWith('pattern') ? [] : ['the pattern was not read last']),
	];
	return {
		broke: () => {
			sinceBreak = [];
			sincePass = [];
			mustRead = true;
		},
		aged: () => {
			sincePass = [];
			mustRead = true;
		},
		sprayed: face => {
			sincePass = [];
			mustRead = false;
			last = face;
		},
		read: feature => {
			sinceBreak.push(feature);
			sincePass.push(feature);
		},
		hardener: letter => hardened.add(letter),
		against: (face, cup) => [
			...full(face),
			...(mustRead || (last !== null && wantedHorns[last] !== wantedHorns[face]) ? short() : []),
			...(cup.length ? [] : ['no cup with paint is on the gun']),
			...cup.filter(letter => !hardened.has(letter)).map(letter => `the hardener of ${letter} was not read`),
		],
	};
}
