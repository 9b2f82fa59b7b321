import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { aloud } from '../../src/voice/aloud.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { exampleSheet, saidIn } from './said.ts';

/**
 * Speaks every sentence that is heard of some days into a file, with `espeak-ng` as the program itself calls it, and
 * measures it: not silent, and shorter than 6 s. `npm run heard`; wants `espeak-ng`.
 */

const longest_s = 6;
/** Loudest sample below which nothing was said, of 32767. */
const silence = 1000;

type Measured = { sentence: string; s: number; loudest: number };

/** Seconds and loudest sample of a WAV file of 16 bits. */
function measured(path: string): Omit<Measured, 'sentence'> {
	const wave = readFileSync(path);
	const rate_Hz = wave.readUInt32LE(24);
	const from = wave.indexOf('data', 12, 'latin1') + 8;
	const samples = new Int16Array(
		wave.buffer.slice(wave.byteOffset + from, wave.byteOffset + wave.length - ((wave.length - from) % 2)),
	);
	return {
		s: samples.length / rate_Hz,
		loudest: samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0),
	};
}

function spoken(sentence: string, folder: string): Measured {
	const path = join(folder, 'said.wav');
	const { status, error } = spawnSync('espeak-ng', ['--stdin', '-w', path], { input: aloud(sentence) });
	if (error || status !== 0) throw new Error(`espeak-ng cannot speak here: ${error?.message ?? status}`);
	return { sentence, ...measured(path) };
}

const folder = mkdtempSync(join(tmpdir(), 'fanwise-heard-'));
const small = { job: smallJob(), lists: smallLists() };
const days = [
	saidIn(small, { units: 'us' }, 1),
	saidIn(small, { by: 'stretch', cards: true }, 3),
	saidIn(await exampleSheet(), { by: 'stretch', cards: true }, 8),
];
const sentences = [...new Set(days.flatMap(({ heard }) => [...heard]))];
const all = sentences.map(sentence => spoken(sentence, folder)).sort((one, other) => other.s - one.s);
rmSync(folder, { recursive: true });

const wrong = all.filter(({ s, loudest }) => s >= longest_s || loudest < silence);
const quietest = Math.min(...all.map(({ loudest }) => loudest));
const middle = all[Math.floor(all.length / 2)];
process.stdout.write(`${all.length} sentences; the middle one takes ${middle?.s.toFixed(2)} s\n`);
for (const { sentence, s, loudest } of all.slice(0, 5))
	process.stdout.write(`  ${s.toFixed(2)} s, loudest ${loudest}: ${sentence}\n`);
process.stdout.write(`quietest: loudest sample ${quietest} of 32767\n`);
for (const { sentence, s, loudest } of wrong)
	process.stdout.write(`WRONG ${s.toFixed(2)} s, loudest ${loudest}: ${sentence}\n`);
process.exitCode = wrong.length > 0 ? 1 : 0;
