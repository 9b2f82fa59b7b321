import type { Chance } from './chance.ts';

/** Bytes that a terminal, a glove, a cat or a clipboard may send. */

const corners = ['e', 'r', 'i', 'o', 'p', 'x', 'c', 'v', ',', '.', '/'];
const sequences = [
	...[
		'\u001b[A',
		'\u001b[B',
		'\u001b[C',
		'\u001b[D',
		'\u001bOP',
		'\u001b[15~',
		'\u001b[3~',
		'\u001b[Z',
		'\u001b[5~',
	],
	...[
		'\u001b[101u',
		'\u001b[101;1:2u',
		'\u001b[101;1:3u',
		'\u001b[32;1:1u',
		'\u001b[57406u',
		'\u001b[27;5;99~',
	],
	...[
		'\u001bOp',
		'\u001bOw',
		'\u001b[<0;10;10M',
		'\u001b[M !!',
		'\u001b[I',
		'\u001b[?1u',
		'\u001b[1;5A',
		'\u001b[[A',
	],
	...[
		'\u001b]0;x y\u0007',
		'\u001bP e o \u001b\\',
		'\u001b_G\u001b\\',
		'\u001be',
		'\u001b',
		'\u001b\u001b',
		'\u009b',
	],
];
const controls = ['\u0000', '\u0007', '\b', '\t', '\n', '\r', '\u001a', '\u007f'];
const others = ['t', 'y', 'a', 's', 'd', 'b', 'n', 'é', 'ß', '€', '🎨', '\u202e', '\u200b', 'E', 'O', '-'];

const typed = (chance: Chance) =>
	`${chance.pick(['', '-', '0'])}${chance.below(300)}${chance.pick(['\r', '\r', '.5\r', ''])}`;
const paste = (chance: Chance) =>
	`\u001b[200~${Array.from({ length: chance.below(12) }, () => chance.pick([...corners, ' ', '\r', '7', '\u001b[A'])).join('')}${chance.pick(['\u001b[201~', '\u001b[201~', '\u001b[201', ''])}`;
const cut = (chance: Chance) => {
	const whole = chance.pick(sequences);
	return whole.slice(0, 1 + chance.below(whole.length));
};

/** One thing struck or sent. */
export function noise(chance: Chance): Buffer {
	const kind = chance.next();
	if (kind < 0.45) return Buffer.from(chance.pick(corners));
	if (kind < 0.55) return Buffer.from(typed(chance));
	if (kind < 0.56) return Buffer.from(' ');
	if (kind < 0.7) return Buffer.from(chance.pick(sequences));
	if (kind < 0.74) return Buffer.from(cut(chance));
	if (kind < 0.76) return Buffer.from(paste(chance));
	if (kind < 0.82) return Buffer.from(chance.pick(controls));
	if (kind < 0.822) return Buffer.from('\u0003');
	if (kind < 0.9) return Buffer.from(chance.pick(others));
	if (kind < 0.95) return Buffer.from(chance.pick(corners).repeat(1 + chance.below(6)));
	return Buffer.from(Array.from({ length: 1 + chance.below(6) }, () => chance.below(256)));
}

/** The same bytes cut anywhere, so that chunks end inside characters and sequences, or many things come as one. */
export function pieces(bytes: Buffer, chance: Chance): Buffer[] {
	const made: Buffer[] = [];
	for (let from = 0; from < bytes.length; ) {
		const length = chance.next() < 0.4 ? 1 : 1 + chance.below(bytes.length - from);
		made.push(bytes.subarray(from, from + length));
		from += length;
	}
	return made;
}
