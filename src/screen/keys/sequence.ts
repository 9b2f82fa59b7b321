import { type Key, keyOfPoint, press } from './key.ts';

const letters: Record<string, string> = {
	A: 'up',
	B: 'down',
	C: 'right',
	D: 'left',
	E: 'pad-begin',
	F: 'end',
	H: 'home',
	P: 'f1',
	Q: 'f2',
	R: 'f3',
	S: 'f4',
	Z: 'tab',
};

const numbers: Record<number, string> = {
	1: 'home',
	2: 'insert',
	3: 'delete',
	4: 'end',
	5: 'page-up',
	6: 'page-down',
	7: 'home',
	8: 'end',
	11: 'f1',
	12: 'f2',
	13: 'f3',
	14: 'f4',
	15: 'f5',
	17: 'f6',
	18: 'f7',
	19: 'f8',
	20: 'f9',
	21: 'f10',
	23: 'f11',
	24: 'f12',
};

/** Number pad keys of the protocol for reporting press, repeat and release, from code 57399 on. */
const pad = [
	...['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'],
	...['decimal', 'divide', 'multiply', 'minus', 'plus', 'enter', 'equal', 'separator'],
	...['left', 'right', 'up', 'down', 'page-up', 'page-down', 'home', 'end', 'insert', 'delete', 'begin'],
];
const firstPadCode = 57399;
/** The private area in which the protocol places keys that are no characters. */
const isPrivate = (code: number) => code >= 57344 && code <= 63743;

const kinds: Record<string, Key['kind']> = { '1': 'press', '2': 'repeat', '3': 'release' };

function modifiers(field: string | undefined): Pick<Key, 'kind' | 'ctrl' | 'alt'> {
	const [mask = '', event = ''] = (field ?? '').split(':');
	const bits = Math.max(0, (Number.parseInt(mask, 10) || 1) - 1);
	return { kind: kinds[event] ?? 'press', alt: (bits & 2) !== 0, ctrl: (bits & 4) !== 0 };
}

function nameOfCode(code: number): string {
	const onPad = pad[code - firstPadCode];
	if (onPad) return `pad-${onPad}`;
	if (isPrivate(code)) return 'unknown';
	return keyOfPoint(code).key;
}

/** `CSI code:shifted:place ; modifiers:event ; text u` */
function codeSequence(fields: string[]): Key {
	const [code = '', , place = ''] = (fields[0] ?? '').split(':');
	const how = modifiers(fields[1]);
	const name = nameOfCode(Number.parseInt(code, 10));
	const text = fields[2] ? Number.parseInt(fields[2], 10) : Number.NaN;
	const isCharacter = [...name].length === 1;
	const key = isCharacter && !how.ctrl && text > 0x20 ? nameOfCode(text) : name;
	const at = place && isCharacter ? { place: nameOfCode(Number.parseInt(place, 10)) } : {};
	return press(key, { ...how, ...at, exact: true });
}

/**
 * Names a whole control sequence.
 *
 * @param parameters what stands between `CSI` and the last character, digits `;` and `:`, or the marks `? < = >`
 * @param final the last character
 * @returns the key, or null for a report that is no key
 */
export function keyOfSequence(parameters: string, final: string): Key | null {
	if (/^\?\d*$/.test(parameters) && final === 'u') return press('key-report');
	if (/^[?<=>]/.test(parameters)) return null;
	const fields = parameters.split(';');
	if (final === 'u') return codeSequence(fields);
	if (final === '~') {
		const code = Number.parseInt(fields[0] ?? '', 10);
		if (code === 27) return codeSequence([fields[2] ?? '', fields[1] ?? '']);
		return press(numbers[code] ?? 'unknown', modifiers(fields[1]));
	}
	if (final === 'I' || final === 'O' || final === 'c' || final === 'n' || final === 'y') return null;
	return press(letters[final] ?? 'unknown', modifiers(fields[1]));
}

const shift3Pad: Record<string, string> = {
	M: 'enter',
	j: 'multiply',
	k: 'plus',
	l: 'separator',
	m: 'minus',
	n: 'decimal',
	o: 'divide',
	...Object.fromEntries([...'pqrstuvwxy'].map((letter, digit) => [letter, String(digit)])),
};

/** Names the character after `ESC O`: function keys, and the number pad in application mode. */
export function keyOfShift3(final: string): Key {
	const onPad = shift3Pad[final];
	return onPad ? press(`pad-${onPad}`, { exact: true }) : press(letters[final] ?? 'unknown');
}
