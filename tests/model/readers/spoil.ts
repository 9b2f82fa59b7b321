import type { Chance } from '../keys/chance.ts';

/** Texts and bytes made wrong by chance: as a slip, a bad disk or ill will makes them. */

const tokens = [
	...[
		'',
		' ',
		'\t',
		'\n',
		'\r',
		'\n\n',
		':',
		': ',
		'-',
		'- ',
		'[',
		']',
		'{',
		'}',
		',',
		'#',
		'&a',
		'*a',
		'!!x',
		'%',
		'---',
		'...',
		'|',
		'>',
	],
	...[
		'"',
		"'",
		'\\',
		'\\u0000',
		'"\\e[2J"',
		'? ',
		'<<: ',
		'~',
		'null',
		'true',
		'no',
		'NaN',
		'.inf',
		'1e999',
		'-0',
		'0x1f',
		'1_000',
		'9'.repeat(400),
	],
	...[
		'__proto__',
		'constructor',
		'toString',
		'hasOwnProperty',
		'length',
		'\u202e',
		'\u0000',
		'\u001b[2J',
		'\u009b',
		'\u2028',
		'\ud800',
		'\ufeff',
		'\u200b',
	],
	...[
		'é',
		'漢',
		'🎨',
		'x'.repeat(3000),
		'['.repeat(60),
		'{a: '.repeat(40),
		'- '.repeat(40),
		' '.repeat(250),
		'2:1:1 by volume',
		'60 to 75 °F',
		'10 min',
	],
];

const at = (text: string, chance: Chance) => chance.below(text.length + 1);

const changes: ((text: string, chance: Chance) => string)[] = [
	(text, chance) => {
		const where = at(text, chance);
		return text.slice(0, where) + chance.pick(tokens) + text.slice(where);
	},
	(text, chance) => {
		const where = at(text, chance);
		return text.slice(0, where) + text.slice(where + 1 + chance.below(12));
	},
	(text, chance) => {
		const where = at(text, chance);
		return text.slice(0, where) + chance.pick(tokens) + text.slice(where + 1 + chance.below(8));
	},
	(text, chance) => text.slice(0, at(text, chance)),
	(text, chance) => {
		const lines = text.split('\n');
		const [line = ''] = lines.splice(chance.below(lines.length), 1);
		lines.splice(chance.below(lines.length + 1), 0, line);
		return lines.join('\n');
	},
	(text, chance) => {
		const lines = text.split('\n');
		lines.splice(chance.below(lines.length), 1);
		return lines.join('\n');
	},
	(text, chance) => {
		const lines = text.split('\n');
		lines.splice(chance.below(lines.length), 0, chance.pick(lines));
		return lines.join('\n');
	},
	(text, chance) => {
		const words = text.split(/(?<=[\s:,])/);
		words[chance.below(words.length)] = chance.pick(words);
		return words.join('');
	},
];

/** A text with one to five changes. */
export function spoilText(text: string, chance: Chance): string {
	let spoilt = text;
	for (let times = 1 + chance.below(5); times > 0; times--) spoilt = chance.pick(changes)(spoilt, chance);
	return spoilt;
}

/** Bytes with one to three changes: bits, bytes, pieces lost, doubled, swapped or turned to zeros. */
export function spoilBytes(bytes: Uint8Array, chance: Chance): Buffer {
	let spoilt = Buffer.from(bytes);
	const where = () => chance.below(spoilt.length + 1);
	for (let times = 1 + chance.below(3); times > 0; times--) {
		const [from, to] = [where(), where()].sort((one, other) => one - other) as [number, number];
		const piece = spoilt.subarray(from, to);
		switch (chance.below(7)) {
			case 0:
			case 1:
				if (from < spoilt.length) spoilt[from] = (spoilt[from] ?? 0) ^ (1 << chance.below(8));
				break;
			case 2:
				if (from < spoilt.length) spoilt[from] = chance.below(256);
				break;
			case 3:
				spoilt = Buffer.concat([spoilt.subarray(0, from), spoilt.subarray(to)]);
				break;
			case 4:
				spoilt = Buffer.concat([spoilt.subarray(0, to), piece, spoilt.subarray(to)]);
				break;
			case 5:
				spoilt.fill(0, from, Math.min(to, from + chance.below(4096)));
				break;
			default:
				spoilt = Buffer.concat([spoilt, Buffer.from(chance.pick(tokens))]);
		}
	}
	return spoilt;
}
