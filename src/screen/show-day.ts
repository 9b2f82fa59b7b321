import type { Settings } from '../day/settings.ts';
import { layoutOf } from './keys/layouts.ts';
import type { GlyphStyle } from './letters.ts';
import { runScreen, type ScreenSetup } from './run.ts';
import type { ScreenClock, Session } from './session-port.ts';
import type { Left, StagePorts } from './stage.ts';

type Environment = Record<string, string | undefined>;

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
