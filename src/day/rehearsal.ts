import { nearest } from '../trade/nearest.ts';
import { parseQuantity } from '../trade/quantity.ts';
import { type MovedClock, movedClock } from './clock.ts';
import type { Refusal } from './decide.ts';
import { type GoingOn, goingOn, type RehearsedDays } from './going-on.ts';
import { pulledClock } from './pulled-clock.ts';
import type { DayRecord } from './records.ts';
import { type Outcome, openSession, type Session, type Sink } from './session.ts';
import type { View } from './view.ts';

/** One line out: the screen, what the line wrote, and whether it was taken. */
export type Line = Omit<View, 'rehearsal'> & { events: string[]; accepted: boolean; reason?: Refusal };

export type Rehearsal = {
	/** The first screen. */
	first(): Line;
	/** What one line of input leads to. */
	take(line: string): Line;
	session(): Session;
	close(): void;
};

const cornerWords = {
	'top-left': 'topLeft',
	'top-right': 'topRight',
	'bottom-left': 'bottomLeft',
	'bottom-right': 'bottomRight',
} as const;

const words = [
	...Object.keys(cornerWords),
	'hold',
	'number',
	'text',
	'wait',
	'sleep',
	'kill',
	'hangup',
	'clock',
	'trigger',
	'morning',
	'screen',
];

/** Lines of one word: more than that is another line, and not to be guessed at. */
const alone: readonly string[] = [...Object.keys(cornerWords), 'hold', 'kill', 'hangup', 'morning', 'screen'];

/** Longest move of the clock in one line, ms: a year. */
const longest_ms = 366 * 86_400_000;

function time_ms(words: string): number | Refusal {
	const sign = words.startsWith('-') ? -1 : 1;
	const parsed = parseQuantity(words.replace(/^[-+]\s*/, ''), 'time');
	if (!parsed.ok) return { code: 'no-time', text: parsed.message };
	const ms = Math.round(parsed.value * 1000);
	return ms > longest_ms ? { code: 'no-time', text: 'A year at most in one line.' } : sign * ms;
}

/**
 * A day answered line by line on a clock that stands still between lines, and the days of its job that follow it.
 * @param open opens the newest day's records again after a kill, and at the start
 * @param start wall clock at the first line, ms
 * @param pulls recorded pulls of the trigger, ms after the start
 * @param bare the clock underneath; left out, one whose machine tells of its sleep
 * @param days of the job; left out, it is of this day alone
 */
export function rehearse(
	open: () => Sink,
	start: number,
	pulls: readonly { on: boolean; after_ms: number }[] = [],
	bare: MovedClock = movedClock(start),
	days: RehearsedDays | null = null,
): Rehearsal {
	const clock: MovedClock = { ...bare, ...pulledClock(bare, pulls, on => session.trigger(on)) };
	const opened = (): Session | GoingOn => {
		const sink = open();
		const notice = days?.notice(sink.records) ?? null;
		const day = openSession({ sink, clock, rehearsal: true, notice });
		return days ? goingOn(day, { clock, forward: clock.pass, days }) : day;
	};
	let session = opened();
	const typesOf = (records: readonly DayRecord[]) => records.map(({ type }) => type);
	const line = (events: string[], refusal?: Refusal): Line => {
		const { rehearsal: _, ...view } = session.view();
		return { ...view, events, accepted: refusal === undefined, ...(refusal && { reason: refusal }) };
	};
	/** Records that come while the clock is moved. */
	const since = (move: () => void): Line => {
		const types: string[] = [];
		const stop = session.onChange(made => types.push(...typesOf(made)));
		move();
		stop();
		return line(types);
	};

	const moved = (rest: string, move: (ms: number) => void): Line => {
		const ms = time_ms(rest);
		return typeof ms === 'number' ? since(() => move(ms)) : line([], ms);
	};
	const forward = (rest: string, move: (ms: number) => void): Line =>
		rest.startsWith('-')
			? line([], { code: 'no-time', text: 'Time goes forward: "clock -1 h" sets the clock back.' })
			: moved(rest, move);

	const take = (given: string): Line => {
		const [word = '', ...more] = given.trim().split(/\s+/);
		const rest = more.join(' ');
		if (rest !== '' && alone.includes(word))
			return line([], {
				code: 'unknown-line',
				text: `"${word}" stands alone: leave out "${rest.slice(0, 40)}".`,
			});
		switch (word) {
			case 'top-left':
			case 'top-right':
			case 'bottom-left':
			case 'bottom-right':
				return answered({ key: cornerWords[word] });
			case 'hold':
				return answered({ key: 'hold' });
			case 'number':
				return rest === '' || !Number.isFinite(Number(rest))
					? line([], { code: 'not-a-number', text: `"${rest.slice(0, 40)}" is no number.` })
					: answered({ number: Number(rest) });
			case 'text':
				return answered({ text: rest });
			case 'wait':
				return forward(rest, ms => {
					clock.pass(ms);
					session.tick();
				});
			case 'sleep':
				return forward(rest, ms => {
					clock.sleep(ms);
					session.tick();
				});
			case 'clock':
				return moved(rest, ms => {
					clock.set(ms);
					session.tick();
				});
			case 'kill':
				clock.wakeAt(null, () => {});
				session = opened();
				return line(typesOf(session.opening));
			case 'hangup':
				return line(typesOf(session.break('hangup')));
			case 'trigger':
				return rest === 'on' || rest === 'off'
					? line(typesOf(session.trigger(rest === 'on')))
					: line([], { code: 'no-trigger', text: 'trigger on, or trigger off.' });
			case 'morning':
				return 'morning' in session
					? outcome(session.morning())
					: line([], { code: 'one-day', text: 'Nothing follows this day here.' });
			case 'screen':
				return line([]);
			default:
				return line([], {
					code: 'unknown-line',
					text: `"${word.slice(0, 40)}" is no line: the nearest is "${nearest(word.slice(0, 40), words)}".`,
				});
		}
	};

	const outcome = ({ accepted, reason, records }: Outcome): Line =>
		line(typesOf(records), accepted ? undefined : (reason ?? { code: 'refused', text: 'Not taken.' }));
	const answered = (answer: Parameters<Session['answer']>[0]): Line => outcome(session.answer(answer));

	return {
		first: () => line(typesOf(session.opening)),
		take,
		session: () => session,
		close: () => session.close(),
	};
}
