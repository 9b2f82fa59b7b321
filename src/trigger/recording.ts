import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { type Pull, parsePull, pullLine } from './line.ts';
import { SourceError } from './source.ts';

export type Recorder = {
	/** @throws Error where the disk fails */
	keep(on: boolean, after_ms: number, at: string): void;
};

/**
 * Begins a recording in a new file.
 * @throws SourceError where it is there already or cannot be written
 */
export function openRecorder(path: string): Recorder {
	try {
		writeFileSync(path, '', { flag: 'wx', mode: 0o600 });
	} catch (error) {
		const there = error instanceof Error && 'code' in error && error.code === 'EEXIST';
		throw new SourceError(
			there
				? `${path}: is there already, and is left as it is: give the recording another name`
				: `${path}: cannot be written: choose another folder`,
		);
	}
	return { keep: (on, after_ms, at) => appendFileSync(path, pullLine(on, after_ms, at)) };
}

export type TimedPull = { on: boolean; after_ms: number };
const isTimed = (pull: Pull | null): pull is TimedPull => pull !== null && pull.after_ms !== null;

/**
 * Reads a recording.
 * @returns its pulls in the order of time, and how many lines of it could not be used
 */
export function readRecording(path: string): { pulls: TimedPull[]; bad: number } {
	const lines = readFileSync(path, 'utf8')
		.split(/\r?\n/)
		.filter(line => line.trim() !== '');
	const pulls = lines.map(parsePull).filter(isTimed);
	return {
		pulls: pulls.toSorted((one, other) => one.after_ms - other.after_ms),
		bad: lines.length - pulls.length,
	};
}
