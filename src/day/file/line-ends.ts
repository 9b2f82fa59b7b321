import { crc32 } from 'node:zlib';

export const sumLength = 8;
const space = 32;
const lineFeed = 10;
const carriageReturn = 13;

export const hexSum = (bytes: Uint8Array | string): string =>
	crc32(bytes).toString(16).padStart(sumLength, '0');

/** Whether a line, given without its end, begins with the checksum of what follows. */
export const fitsItsSum = (line: Uint8Array): boolean =>
	line[sumLength] === space &&
	Buffer.from(line.subarray(0, sumLength)).toString('latin1') === hexSum(line.subarray(sumLength + 1));

const asBuffer = (bytes: Uint8Array) => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
const withoutReturn = (line: Uint8Array) => (line.at(-1) === carriageReturn ? line.subarray(0, -1) : line);

/** Whether another program gave the lines of a day other ends, CR and LF: its first line fits without the CR. */
export const hasOtherEnds = (bytes: Uint8Array): boolean =>
	asBuffer(bytes).includes('\r\n') && fitsItsSum(withoutReturn(bytes.subarray(0, bytes.indexOf(lineFeed))));

/**
 * The bytes of a day file as this program writes them: an editor's CR before an LF is taken away, which stands in no
 * record, and a last line that is whole by its checksum has its LF. Everything else stands as it is.
 */
export const asWritten = (bytes: Uint8Array): Uint8Array => {
	const last = bytes.lastIndexOf(lineFeed) + 1;
	const tail = withoutReturn(bytes.subarray(last));
	const isWhole = fitsItsSum(tail);
	const isOther = hasOtherEnds(bytes);
	if (!isWhole && !isOther) return bytes;
	const lines = bytes.subarray(0, last);
	const ended = isOther
		? Buffer.from(asBuffer(lines).toString('latin1').replaceAll('\r\n', '\n'), 'latin1')
		: lines;
	return Buffer.concat([ended, ...(isWhole ? [tail, Buffer.from('\n')] : [bytes.subarray(last)])]);
};
