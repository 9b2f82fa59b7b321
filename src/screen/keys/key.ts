/**
 * One thing that the keyboard said. `key` is the character itself, or a name: `space enter backspace tab escape
 * up down left right home end page-up page-down insert delete f1 … f12`, `pad-0 … pad-9 pad-decimal pad-enter …`
 * where the terminal tells the number pad apart, `paste` for a whole paste, `key-report` for a terminal saying that it can
 * report press, repeat and release, `unknown` for the rest.
 */
export type Key = {
	key: string;
	/** Only some terminals tell a repeat and a release from a press. */
	kind: 'press' | 'repeat' | 'release';
	ctrl: boolean;
	alt: boolean;
	/** The character at that place of a US keyboard, where the terminal says that it is another one. */
	place?: string;
	/** Reported by a terminal that tells the number pad from the number row. */
	exact?: true;
};

export const press = (key: string, with_: Partial<Key> = {}): Key => ({
	key,
	kind: 'press',
	ctrl: false,
	alt: false,
	...with_,
});

const named: Record<number, string> = {
	8: 'backspace',
	9: 'tab',
	10: 'enter',
	13: 'enter',
	27: 'escape',
	32: 'space',
	127: 'backspace',
};

/** A code point that can stand for itself; a report may claim any number at all, or none. */
const isCharacter = (point: number): boolean =>
	(point > 0x20 && point < 0x7f) ||
	(point >= 0xa0 && point < 0xd800) ||
	(point > 0xdfff && point <= 0x10ffff);

/** Names a single code point: a character, a named key, or a control letter. */
export function keyOfPoint(point: number): Key {
	const name = named[point];
	if (name) return press(name);
	if (point === 0) return press('space', { ctrl: true });
	if (point < 0x1b) return press(String.fromCharCode(point + 0x60), { ctrl: true });
	if (!isCharacter(point)) return press('unknown');
	return press(String.fromCodePoint(point));
}
