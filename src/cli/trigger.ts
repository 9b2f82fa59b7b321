import type { Clock } from '../day/clock.ts';
import type { Session as DaySession } from '../day/session.ts';
import type { Session } from '../screen/session-port.ts';
import { feed } from '../trigger/feed.ts';
import { openRecorder, readRecording, type TimedPull } from '../trigger/recording.ts';
import { isPlainFile, SourceError } from '../trigger/source.ts';
import { told } from '../trigger/told.ts';
import type { Args, Option } from './command.ts';

/** The options of every command that listens to the trigger line. */
export const triggerOptions: Record<string, Option> = {
	trigger: {
		type: 'string',
		value: 'SOURCE',
		says: 'lines {"trigger":"on"} and {"trigger":"off"} from a pipe, a file that grows, or "command: PROGRAM"',
	},
	record: {
		type: 'string',
		value: 'FILE',
		says: 'keep what the trigger line says, with its times, in a new file',
	},
};

export type TriggerLine = { source: string | null; record: string | null };

export function triggerLineOf({ trigger, record }: Args['options']): TriggerLine {
	if (record !== undefined && trigger === undefined)
		throw new SourceError('--record keeps what a trigger line says: name it with --trigger SOURCE');
	return {
		source: trigger === undefined ? null : String(trigger),
		record: record === undefined ? null : String(record),
	};
}

/** The pulls that a rehearsal plays: those of a recording, and none where the line is live. */
export function playedPulls({ source, record }: TriggerLine): { pulls: TimedPull[]; bad: number } | null {
	if (source === null || record !== null || !isPlainFile(source)) return null;
	try {
		return readRecording(source);
	} catch {
		throw new SourceError(`${source}: cannot be read: ask for its owner's leave`);
	}
}

export type Listening = {
	/** The session with its trigger line: what comes from it is told to the day from now on. */
	attach(day: DaySession, session: Session): Session;
	close(): void;
};

/**
 * Begins to listen to a trigger line, before a day is opened for it.
 * @throws SourceError where the line or its recording cannot be opened
 */
export function listen({ source, record }: TriggerLine, now: Clock['now']): Listening {
	if (source === null) return { attach: (_day, session) => session, close() {} };
	let heard: { pull: DaySession['trigger']; tell(text: string): void } | null = null;
	const letGo = feed(source, {
		pull: on => void heard?.pull(on),
		tell: text => heard?.tell(text),
		recorder: record === null ? null : openRecorder(record),
		now,
	});
	return {
		attach(day, session) {
			const telling = told(session);
			heard = { pull: day.trigger, tell: telling.tell };
			return telling.session;
		},
		close: letGo,
	};
}

/** Says once, where a day is shown, that lines of a recording could not be used. */
export function tellBad(bad: number, session: Session): Session {
	if (bad === 0) return session;
	const telling = told(session);
	telling.tell(badLines(bad));
	return telling.session;
}

export const badLines = (bad: number): string =>
	`Trigger line: ${bad === 1 ? 'a line' : `${bad} lines`} of its recording could not be read.`;
