import { Readable } from 'node:stream';
import { encodeKey } from '../../../src/day/file/keep.ts';
import { noHistory } from '../../../src/day/history.ts';
import { openingRecord } from '../../../src/day/open.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { runningClock } from '../../../src/day/running-clock.ts';
import { openSession } from '../../../src/day/session.ts';
import { settingsSchema } from '../../../src/day/settings.ts';
import type { View } from '../../../src/day/view.ts';
import { painterOf } from '../../../src/painter/painter.ts';
import { openDesk } from '../../../src/screen/desk.ts';
import { openKeyboard } from '../../../src/screen/keyboard.ts';
import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import type { Session } from '../../../src/screen/session-port.ts';
import { smallJob, smallLists } from '../../day/small-job.ts';
import { oneTime } from './one-time.ts';

/** A day behind its real keyboard, hands and desk, without a screen; bytes go in, the day file comes out. */

export const start = Date.parse('2027-03-02T08:00:00Z');

export type DeskDay = ReturnType<typeof deskDay>;

export function deskDay(
	settings: { cards?: boolean; by?: 'face' | 'stretch'; oneKey?: boolean },
	seed: number,
) {
	const time = oneTime(start);
	const job = smallJob();
	const opening = {
		job,
		lists: smallLists(),
		settings: settingsSchema.parse({ cards: settings.cards ?? false, by: settings.by ?? 'face' }),
		clock: 'moved' as const,
		program: '0.0.0',
		before: noHistory,
		zone: 'UTC',
		seed,
	};
	const writes: DayRecord[][] = [[openingRecord(opening, { wall: start, mono: 0 })]];
	const sink = () => ({
		records: writes.flat(),
		append: (made: readonly DayRecord[]) => void writes.push([...made]),
		close() {},
	});
	const stdin = new Readable({ read() {} });
	const counts = { keys: 0, answers: 0, mostAKey: 0, restarts: 0 };
	let left: 'closed' | 'left' | null = null;
	let inKey = 0;

	const open = () => {
		const clock = runningClock(time.day, time.day.now().wall);
		clock.forward(ahead_ms);
		const session = openSession({ sink: sink(), clock, rehearsal: true });
		const counted: Session = {
			...session,
			answer(given) {
				counts.answers++;
				inKey++;
				return session.answer(given);
			},
			moveClock(by_ms) {
				ahead_ms += by_ms;
				clock.forward(by_ms);
				session.tick();
			},
		};
		const desk = openDesk(
			{
				session: counted,
				clock: time.screen,
				show: shown => {
					view = shown;
				},
				blind: () => false,
				leave: why => {
					left = why;
				},
				suspend: () => {
					session.break('suspend');
					suspended = true;
				},
			},
			{ layout: layoutOf('us', null), oneKey: settings.oneKey ?? false },
		);
		const keyboard = openKeyboard(stdin, time.screen, {
			onKey(key) {
				if (left !== null) return;
				counts.keys++;
				inKey = 0;
				desk.key(key);
				counts.mostAKey = Math.max(counts.mostAKey, inKey);
			},
			onStall: () => desk.stood(),
		});
		return { session, desk, keyboard };
	};

	let ahead_ms = 0;
	let view: View | null = null;
	let suspended = false;
	let running = open();
	const painter = painterOf(job, () => running.session.state());

	const shut = () => {
		running.keyboard.close();
		running.desk.close();
		running.session.close();
	};
	/** Left before its end, the program is started again; the day goes on in hold. */
	const again = () => {
		running.session.break('hangup');
		shut();
		left = null;
		counts.restarts++;
		running = open();
	};

	return {
		painter,
		oneKey: settings.oneKey ?? false,
		counts,
		time,
		view: (): View => view ?? running.session.view(),
		send(bytes: Uint8Array) {
			stdin.emit('data', Buffer.from(bytes));
			if (suspended) {
				suspended = false;
				running.keyboard.forget();
				running.desk.stood();
				running.desk.refresh();
			}
			if (left === 'left') again();
		},
		/** The day is closed and has been left. */
		over: () => left === 'closed',
		records: () => writes.reduce((sum, made) => sum + made.length, 0),
		started: () => writes.flat().filter(({ type }) => type === 'face.started').length,
		bytes(): Uint8Array {
			let last: DayRecord | undefined;
			return Buffer.concat(
				writes.map(made => {
					const piece = encodeKey(made, last);
					last = made.at(-1);
					return piece;
				}),
			);
		},
		shut,
	};
}
