import type { Clock } from './clock.ts';
import { loadDay } from './file/days.ts';
import { disk, type FilePort } from './file/port.ts';
import { DayFileError } from './file/trouble.ts';
import { instantAfter } from './instant.ts';
import { freshUi } from './prompt.ts';
import { type DayState, foldAll } from './state.ts';
import type { Answer, View } from './view.ts';
import { viewOf } from './view-of.ts';

/** A day that another program has open, looked at from its file: nothing is locked, written or answered. */
export type ShownOnly = {
	tick(): void;
	view(): View;
	answer(answer: Answer): { accepted: boolean; reason?: { code: string; text: string } };
	onChange(changed: () => void): () => void;
	break(): void;
	close(): void;
	/** It was left. */
	over(): boolean;
};

const mostLines = 3;

/**
 * Looks on at a day.
 * @param who has it open, as words
 * @throws DayFileError where the file cannot be read as it stands
 */
export function showOnly(path: string, who: string, clock: Clock, port: FilePort = disk): ShownOnly {
	let left = false;
	let seen = '';
	let trouble: string | null = null;
	/** Read anew only where the file has changed. */
	const look = (known: DayState | null): DayState => {
		const found = port.stat(path);
		const mark = `${found?.ino} ${found?.size} ${found?.changed_ms}`;
		if (known && mark === seen) return known;
		const state = foldAll(loadDay(path, port));
		seen = mark;
		return state;
	};
	let state = look(null);
	return {
		tick() {
			try {
				state = look(state);
				trouble = null;
			} catch (error) {
				if (!(error instanceof DayFileError)) throw error;
				trouble = 'Its file cannot be read now: this is how it stood.';
			}
		},
		view() {
			const { opened, last, now } = state.book;
			const moment = { state, now: instantAfter(now, { ...clock.now(), run: last.run + 1 }) };
			const view = viewOf(moment, freshUi, opened.clock === 'moved');
			const lines = [`Shown only: open in ${who}.`, trouble ?? '', ...view.lines].filter(Boolean);
			return {
				...view,
				lines: lines.slice(0, mostLines),
				corners: { bottomRight: { code: 'leave', text: 'LEAVE' } },
			};
		},
		answer(given) {
			left = 'key' in given && given.key === 'bottomRight';
			return left
				? { accepted: true }
				: {
						accepted: false,
						reason: { code: 'shown-only', text: 'Shown only: answer it where it is open.' },
					};
		},
		onChange: () => () => {},
		break() {},
		close() {},
		over: () => left,
	};
}
