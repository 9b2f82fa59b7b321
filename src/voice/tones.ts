import type { Sound } from './ear.ts';

type Note = { Hz: number; s: number };

/**
 * The four sounds, told apart by their course as well as by their height: between 500 and 3000 Hz and 0.5 s or longer
 * (MIL-STD-1472E 5.3).
 */
export const notes: Record<Sound, readonly Note[]> = {
	held: [
		{ Hz: 1500, s: 0.3 },
		{ Hz: 750, s: 0.5 },
	],
	soon: [{ Hz: 1000, s: 0.6 }],
	over: [
		{ Hz: 1000, s: 0.3 },
		{ Hz: 2000, s: 0.5 },
	],
	refused: [{ Hz: 550, s: 0.5 }],
};

/** How often the terminal's bell rings in its place. */
export const bells: Record<Sound, number> = { refused: 1, soon: 2, over: 3, held: 4 };

export const sampleRate_Hz = 16_000;
/** A note swells and fades over this, so that it does not crack, s. */
const edge_s = 0.01;

function samplesOf({ Hz, s }: Note): Int16Array {
	const count = Math.round(s * sampleRate_Hz);
	const edge = edge_s * sampleRate_Hz;
	return Int16Array.from({ length: count }, (_, at) => {
		const swell = Math.min(1, at / edge, (count - 1 - at) / edge);
		return Math.round(0.6 * 32767 * swell * Math.sin((2 * Math.PI * Hz * at) / sampleRate_Hz));
	});
}

/** A sound as a WAV file: 16 bit, one channel (RIFF, format code 1). */
export function waveOf(sound: Sound): Buffer {
	const data = Buffer.concat(notes[sound].map(note => Buffer.from(samplesOf(note).buffer)));
	const head = Buffer.alloc(44);
	head.write('RIFF', 0, 'latin1');
	head.writeUInt32LE(36 + data.length, 4);
	head.write('WAVEfmt ', 8, 'latin1');
	head.writeUInt32LE(16, 16);
	head.writeUInt16LE(1, 20);
	head.writeUInt16LE(1, 22);
	head.writeUInt32LE(sampleRate_Hz, 24);
	head.writeUInt32LE(sampleRate_Hz * 2, 28);
	head.writeUInt16LE(2, 32);
	head.writeUInt16LE(16, 34);
	head.write('data', 36, 'latin1');
	head.writeUInt32LE(data.length, 40);
	return Buffer.concat([head, data]);
}
