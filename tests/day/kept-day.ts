import type { Processes } from '../../src/day/file/lock.ts';
import type { FilePort } from '../../src/day/file/port.ts';
import { createDay } from '../../src/day/file/store.ts';
import { noHistory } from '../../src/day/history.ts';
import { openingRecord } from '../../src/day/open.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { type Line, rehearse } from '../../src/day/rehearsal.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { painterOf } from '../../src/painter/painter.ts';
import { start } from './rehearsed.ts';
import { smallJob, smallLists } from './small-job.ts';

/** A small day rehearsed into a file of its own, through any file system, with a painter for what is not scripted. */
export function keptDay(path: string, port: FilePort, processes: Processes) {
	const job = smallJob();
	const opening = {
		...{ job, lists: smallLists(), settings: settingsSchema.parse({ by: 'face' }), program: '0.0.0' },
		...{ clock: 'moved' as const, before: noHistory, zone: 'UTC' },
	};
	const first = openingRecord(opening, { wall: start, mono: 0 });
	const file = createDay(path, first, { port, processes });
	/** What was told to be on the disk. */
	const acknowledged: DayRecord[] = [first];
	const sink = {
		...file,
		append(made: readonly DayRecord[]) {
			file.append(made);
			acknowledged.push(...made);
		},
	};
	const rehearsal = rehearse(() => sink, start);
	const painter = painterOf(job, () => rehearsal.session().state());
	let line: Line = rehearsal.first();
	const send = (...lines: string[]): Line => {
		for (const one of lines) line = rehearsal.take(one);
		return line;
	};
	/** The painter answers until the day stands in a state. */
	const until = (state: string): Line => {
		for (let count = 0; count < 500; count++) {
			if (rehearsal.session().state().machine.value === state) return line;
			send(painter.answer(line) ?? 'hold');
		}
		throw new Error(`never came to ${state}; stands in ${line.state}`);
	};
	/** What the painter does at the screen that stands there. */
	const key = (): Line => send(painter.answer(line) ?? 'hold');
	return {
		acknowledged,
		send,
		key,
		until,
		line: () => line,
		session: rehearsal.session,
		close: rehearsal.close,
	};
}
