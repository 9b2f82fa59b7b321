import { lineCutter, parsePull } from './line.ts';
import type { Recorder } from './recording.ts';
import { openSource } from './source.ts';

export type FeedPorts = {
	/** Tells the day. */
	pull(on: boolean): void;
	/** Tells the painter something once. */
	tell(text: string): void;
	recorder: Recorder | null;
	/** Wall clock, ms since 1970 UTC, and a clock that only goes forward, ms. */
	now(): { wall: number; mono: number };
};

/** Says a thing the first time only. */
function once(tell: (text: string) => void): (text: string) => void {
	const told = new Set<string>();
	return text => {
		if (told.has(text)) return;
		told.add(text);
		tell(text);
	};
}

/**
 * Feeds a day from its trigger line. A line that says what is known already changes nothing; one that cannot be read
 * is told once and passed over, and so is a line that falls silent for good.
 *
 * @returns how to let go of the line
 * @throws SourceError where the source cannot be opened
 */
export function feed(source: string, { pull, tell, recorder, now }: FeedPorts): () => void {
	const say = once(tell);
	const begins = now().mono;
	let known: boolean | null = null;
	let open = true;
	const keep = (on: boolean) => {
		try {
			const { wall, mono } = now();
			recorder?.keep(on, mono - begins, new Date(wall).toISOString());
		} catch {
			say('Trigger line: its recording cannot be written on.');
		}
	};
	const take = (line: string) => {
		if (!open) return;
		const read = parsePull(line);
		if (!read) return say('Trigger line: a line of it could not be read.');
		if (read.on === known) return;
		known = read.on;
		keep(read.on);
		pull(read.on);
	};
	const opened = openSource(source, {
		bytes: lineCutter(take),
		ended() {
			if (open) say('Trigger line: it has ended. Breaks are told by keys.');
		},
	});
	return () => {
		open = false;
		opened.close();
	};
}
