import { type Finding, finding } from './finding.ts';

/** A JSON object as a line of the file holds it, not looked into yet. */
export type Raw = Record<string, unknown>;
export type Line = { line: number; raw: Raw };

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
	let rest = byte;
	for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? 0xedb88320 ^ (rest >>> 1) : rest >>> 1;
	return rest >>> 0;
});

/** CRC-32 (reflected 0xEDB88320, as in zip and PNG) of bytes, as eight lower-case hex digits. */
export function crc32Hex(bytes: Uint8Array): string {
	let sum = 0xffffffff;
	for (const byte of bytes) sum = (table[(sum ^ byte) & 0xff] ?? 0) ^ (sum >>> 8);
	return ((sum ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}

const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

function readLine(bytes: Uint8Array): Raw | string {
	const head = String.fromCharCode(...bytes.subarray(0, 9));
	if (!/^[0-9a-f]{8} $/.test(head)) return 'does not begin with a check sum';
	const body = bytes.subarray(9);
	if (crc32Hex(body) !== head.slice(0, 8)) return 'does not fit its check sum';
	try {
		const value: unknown = JSON.parse(strict.decode(body));
		if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Raw;
		return 'is not a JSON object';
	} catch {
		return 'is not JSON in UTF-8';
	}
}

/**
 * The whole lines of a day file. What follows the last LF is torn and left out; a bad line that has its LF is
 * damage, and what follows it is not read.
 */
export function readLines(bytes: Uint8Array): { lines: Line[]; findings: Finding[] } {
	const lines: Line[] = [];
	for (let from = 0; ; ) {
		const end = bytes.indexOf(10, from);
		if (end < 0) return { lines, findings: [] };
		const line = lines.length + 1;
		const raw = readLine(bytes.subarray(from, end));
		if (typeof raw === 'string') return { lines, findings: [finding('form', { line }, `this line ${raw}`)] };
		lines.push({ line, raw });
		from = end + 1;
	}
}
