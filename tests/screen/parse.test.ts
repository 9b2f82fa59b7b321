import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bind } from '../../src/screen/keys/bind.ts';
import { guard, guardStart } from '../../src/screen/keys/guard.ts';
import type { Key } from '../../src/screen/keys/key.ts';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { awaits, type ParserState, parse, parserStart, waited } from '../../src/screen/keys/parse.ts';
import { utf8Push, utf8Start } from '../../src/screen/keys/utf8.ts';

const bytesOf = (text: string) => new TextEncoder().encode(text);
const keysOf = (text: string): Key[] => parse(parserStart, bytesOf(text)).keys;
const names = (text: string): string[] => keysOf(text).map(name);
const name = (key: Key) => `${key.ctrl ? 'ctrl-' : ''}${key.alt ? 'alt-' : ''}${key.key}`;

function inChunks(bytes: Uint8Array, cuts: number[]): { state: ParserState; keys: Key[] } {
	const keys: Key[] = [];
	let state = parserStart;
	let from = 0;
	for (const cut of [...cuts.map(at => at % (bytes.length + 1)).sort((a, b) => a - b), bytes.length]) {
		const part = parse(state, bytes.subarray(from, cut));
		state = part.state;
		keys.push(...part.keys);
		from = cut;
	}
	return { state, keys };
}

/** Bytes with more control sequences, pastes and broken characters than chance would give. */
const pieces = fc.oneof(
	fc.constantFrom(
		'\u001b',
		'\u001b[',
		'\u001b[200~',
		'\u001b[201~',
		'\u001bO',
		'\u001b[97;1:3u',
		'\u0003',
		' ',
	),
	fc.constantFrom(
		'\u001b[<0;1;1M',
		'\u001b[M',
		'\u001b]0;x\u0007',
		'\u001bP',
		'\u001b\\',
		'é',
		'👋🏽',
		'\u009b',
	),
	fc.string({ unit: 'binary', maxLength: 6 }),
	fc
		.tuple(
			fc.string({ unit: fc.constantFrom(...'0123456789;:'), maxLength: 9 }),
			fc.constantFrom(...'uu~AHM'),
		)
		.map(([body, final]) => `\u001b[${body}${final}`),
);
const streams = fc
	.array(fc.oneof(pieces.map(bytesOf), fc.uint8Array({ maxLength: 8 })), { maxLength: 12 })
	.map(parts => Uint8Array.from(parts.flatMap(part => [...part])));

describe('bytes to keys', () => {
	test('any chunking of the same bytes gives the same keys', () => {
		fc.assert(
			fc.property(streams, fc.array(fc.nat(200), { maxLength: 10 }), (bytes, cuts) => {
				expect(inChunks(bytes, cuts)).toEqual(parse(parserStart, bytes));
			}),
			{ numRuns: 1000 },
		);
	});

	test('characters agree with the platform’s own decoder, broken bytes too', () => {
		fc.assert(
			fc.property(fc.uint8Array({ maxLength: 40 }), bytes => {
				let state = utf8Start;
				const points: number[] = [];
				for (const byte of bytes) {
					const [next, made] = utf8Push(state, byte);
					state = next;
					points.push(...made);
				}
				if (state.wanted > 0) points.push(0xfffd);
				const wanted = [...new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes)];
				expect(points.map(point => String.fromCodePoint(point))).toEqual(wanted);
			}),
			{ numRuns: 1000 },
		);
	});

	test('keys that a terminal joins into one chunk stay separate', () => {
		expect(names('  ')).toEqual(['space', 'space']);
		expect(names('x\r')).toEqual(['x', 'enter']);
		expect(names('\u007f\u007f')).toEqual(['backspace', 'backspace']);
		expect(names('abc\u0003')).toEqual(['a', 'b', 'c', 'ctrl-c']);
	});

	test('a character of several bytes may be cut anywhere', () => {
		const bytes = bytesOf('é€😀');
		for (let cut = 0; cut <= bytes.length; cut++)
			expect(inChunks(bytes, [cut]).keys.map(name)).toEqual(['é', '€', '😀']);
	});

	test('a paste is one key, whatever is in it', () => {
		expect(names('\u001b[200~e \u0003\u001b[A r\u001b[201~x')).toEqual(['paste', 'x']);
		expect(names('\u001b[200~\u001b[20\u001b[201~')).toEqual(['paste']);
	});

	test('a paste whose end never comes is over after a silence', () => {
		const { state } = parse(parserStart, bytesOf('\u001b[200~ab'));
		expect(awaits(state)).toBe('paste');
		expect(waited(state).keys.map(name)).toEqual(['paste']);
		expect(parse(waited(state).state, bytesOf(' ')).keys.map(name)).toEqual(['space']);
	});

	test('Escape alone is known by the silence after it', () => {
		const { state, keys } = parse(parserStart, bytesOf('\u001b'));
		expect(keys).toEqual([]);
		expect(awaits(state)).toBe('escape');
		expect(waited(state).keys.map(name)).toEqual(['escape']);
		expect(names('\u001b\u001b[A')).toEqual(['escape', 'up']);
	});

	test('arrows, function keys and the number pad have names', () => {
		expect(names('\u001b[A\u001bOB\u001b[3~\u001bOP\u001b[15~\u001b[1;5C')).toEqual([
			'up',
			'down',
			'delete',
			'f1',
			'f5',
			'ctrl-right',
		]);
		expect(names('\u001bOw\u001bOM\u001b[57406u')).toEqual(['pad-7', 'pad-enter', 'pad-7']);
	});

	test('press, repeat and release are told apart where the terminal tells them', () => {
		const keys = keysOf('\u001b[101u\u001b[101;1:2u\u001b[101;1:3u');
		expect(keys.map(key => `${key.key} ${key.kind}`)).toEqual(['e press', 'e repeat', 'e release']);
		expect(names('\u001b[99;5u\u001b[32;1:1u')).toEqual(['ctrl-c', 'space']);
		expect(keysOf('\u001b[59::44u')[0]).toMatchObject({ key: ';', place: ',' });
		expect(keysOf('\u001b[233::50;;50u')[0]).toMatchObject({ key: '2', place: '2' });
	});

	test('reports, mouse and device strings are no keys', () => {
		expect(
			names('\u001b[?62;4c\u001b[<0;3;4M\u001b[M !!\u001b]11;rgb:0/0/0\u0007\u001bPabc\u001b\\'),
		).toEqual([]);
	});

	test('a terminal that can report press, repeat and release is heard', () => {
		expect(names('\u001b[?0u')).toEqual(['key-report']);
	});

	test('a report without a code, or of half a character, is an unknown key', () => {
		expect(names('\u001b[u\u001b[;u\u001b[55296u\u001b[1114112u\u001b[27;5~')).toEqual([
			'unknown',
			'unknown',
			'unknown',
			'unknown',
			'ctrl-unknown',
		]);
	});

	test('a control character inside a sequence still counts', () => {
		expect(names('\u001b[12\u0003')).toEqual(['ctrl-c']);
		expect(names('\u001b ')).toEqual(['alt-space']);
	});
});

test('random bytes never crash and never give more than one answer a key', () => {
	const count = Number(process.env.FANWISE_RANDOM_BYTES ?? 20_000);
	const layout = layoutOf('us', null);
	let seed = 20270302;
	const next = () => {
		seed = (Math.imul(seed, 1103515245) + 12345) >>> 0;
		return seed >>> 24;
	};
	let state = parserStart;
	let guarded = guardStart;
	let keys = 0;
	let answers = 0;
	for (let done = 0; done < count; done += 100) {
		const chunk = Uint8Array.from({ length: 100 }, next);
		const out = parse(state, chunk);
		state = next() < 16 ? waited(out.state).state : out.state;
		for (const key of out.keys) {
			keys++;
			const bound = bind(key, layout, 'nothing');
			const at = keys * 150;
			if (bound.is !== 'hold' && bound.is !== 'corner') continue;
			const event = bound.is === 'hold' ? { is: bound.is, at } : { ...bound, at, repeat: false };
			const step = guard(guarded, event);
			guarded = step.state;
			answers += step.out.filter(output => output.give !== 'notice').length;
			expect(answers).toBeLessThanOrEqual(keys);
		}
	}
	expect(answers).toBeGreaterThan(count / 2000);
	expect(keys).toBeLessThanOrEqual(count);
});
