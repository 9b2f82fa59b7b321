/** A code point under way: the bytes still wanted, what has come so far, and the lowest and highest next byte. */
export type Utf8State = { wanted: number; point: number; low: number; high: number };

export const utf8Start: Utf8State = { wanted: 0, point: 0, low: 0x80, high: 0xbf };

const replacement = 0xfffd;

function lead(byte: number): Utf8State | null {
	if (byte >= 0xc2 && byte <= 0xdf) return { wanted: 1, point: byte & 0x1f, low: 0x80, high: 0xbf };
	if (byte >= 0xe0 && byte <= 0xef) {
		const low = byte === 0xe0 ? 0xa0 : 0x80;
		const high = byte === 0xed ? 0x9f : 0xbf;
		return { wanted: 2, point: byte & 0x0f, low, high };
	}
	if (byte >= 0xf0 && byte <= 0xf4) {
		const low = byte === 0xf0 ? 0x90 : 0x80;
		const high = byte === 0xf4 ? 0x8f : 0xbf;
		return { wanted: 3, point: byte & 0x07, low, high };
	}
	return null;
}

/**
 * Takes one byte and hands back the code points it completes; a byte that cannot belong gives U+FFFD, once for
 * each broken stretch (WHATWG Encoding, UTF-8 decoder).
 *
 * @returns the state after the byte, and none, one or two code points
 */
export function utf8Push(state: Utf8State, byte: number): [Utf8State, number[]] {
	if (state.wanted > 0) {
		if (byte < state.low || byte > state.high) {
			const [next, points] = utf8Push(utf8Start, byte);
			return [next, [replacement, ...points]];
		}
		const point = (state.point << 6) | (byte & 0x3f);
		if (state.wanted === 1) return [utf8Start, [point]];
		return [{ wanted: state.wanted - 1, point, low: 0x80, high: 0xbf }, []];
	}
	if (byte < 0x80) return [utf8Start, [byte]];
	const started = lead(byte);
	return started ? [started, []] : [utf8Start, [replacement]];
}
