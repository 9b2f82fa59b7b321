import type { Session as DaySession } from '../day/session.ts';
import type { Settings } from '../day/settings.ts';
import { layoutOf } from './keys/layouts.ts';
import type { GlyphStyle } from './letters.ts';
import { runScreen, type ScreenSetup } from './run.ts';
import type { ScreenClock, Session } from './session-port.ts';
import type { Left, StagePorts } from './stage.ts';
import type { TerminalInput, TerminalOutput } from './terminal.ts';

type Environment = Record<string, string | undefined>;

/** A terminal that can be drawn on: both ends are one, and it can move its cursor. */
export const canDraw = (stdin: TerminalInput, stdout: TerminalOutput, env: Environment): boolean =>
	Boolean(stdin.isTTY && stdout.isTTY) && env.TERM !== 'dumb';

/** Half blocks where the locale can write them; plain characters where it cannot. */
export function glyphStyle(env: Environment): GlyphStyle {
	const locale = env.LC_ALL || env.LC_CTYPE || env.LANG || '';
	return /utf-?8/i.test(locale) || (locale === '' && process.platform === 'win32') ? 'half' : 'ascii';
}

/** How the settings have a screen answered and drawn. */
export function setupOf(settings: Settings, env: Environment): ScreenSetup {
	return {
		layout: layoutOf(settings.layout, settings.learned),
		oneKey: settings.answer === 'one-key',
		style: glyphStyle(env),
	};
}

const machineClock: ScreenClock = {
	mono: () => performance.now(),
	after(wait_ms, then) {
		const timer = setTimeout(then, wait_ms);
		return () => clearTimeout(timer);
	},
};

/**
 * A day as the screen wants it.
 *
 * @param forward puts a rehearsal's clock forward; left out where the clock is real
 */
export function portOf(day: DaySession, forward?: (by_ms: number) => void): Session {
	return {
		tick: day.tick,
		view: day.view,
		answer: day.answer,
		onChange: day.onChange,
		break: day.break,
		close: day.close,
		...(forward && {
			moveClock(by_ms: number) {
				forward(by_ms);
				day.tick();
			},
		}),
	};
}

/** The terminal that this process runs in. */
export const processPorts = (): StagePorts => ({
	stdin: process.stdin,
	stdout: process.stdout,
	clock: machineClock,
	signals: process,
	stop: () => process.kill(process.pid, 'SIGSTOP'),
});

/**
 * Shows a day, or a picker, in this process's terminal until it is left; the terminal is then as it was and the
 * session closed.
 */
export const showSession = (session: Session, settings: Settings): Promise<Left> =>
	runScreen({ ...processPorts(), session }, setupOf(settings, process.env));

/**
 * Shows a day in this process's terminal until it is left; the terminal is then as it was and the day closed.
 *
 * @param forward puts a rehearsal's clock forward; left out where the clock is real
 */
export const showDay = (
	day: DaySession,
	settings: Settings,
	forward?: (by_ms: number) => void,
): Promise<Left> => showSession(portOf(day, forward), settings);
