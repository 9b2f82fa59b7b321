import { afterSignals } from '../day/clock.ts';
import type { Settings } from '../day/settings.ts';
import { layoutOf } from './keys/layouts.ts';
import { readFrom_m, readFromWords } from './legible.ts';
import { runScreen, type ScreenSetup } from './run.ts';
import type { ScreenClock, Session } from './session-port.ts';
import type { Left, StagePorts } from './stage.ts';
import { glyphStyle } from './window.ts';

type Environment = Record<string, string | undefined>;

/** How the settings have a screen answered and drawn. */
export function setupOf(settings: Settings, env: Environment): ScreenSetup {
	return {
		layout: layoutOf(settings.layout, settings.learned),
		oneKey: settings.answer === 'one-key',
		style: glyphStyle(env),
		read: size => readFromWords(readFrom_m(size, glyphStyle(env), settings.screen_mm), settings.distance_m),
	};
}

const machineClock: ScreenClock = {
	mono: () => performance.now(),
	after: afterSignals,
};

/** The terminal that this process runs in. */
export const processPorts = (): StagePorts => ({
	stdin: process.stdin,
	stdout: process.stdout,
	clock: machineClock,
	signals: process,
	stop: process.platform === 'win32' ? null : () => process.kill(process.pid, 'SIGSTOP'),
});

/**
 * Shows a day, or a picker, in this process's terminal until it is left; the terminal is then as it was and the
 * session closed.
 */
export const showSession = (session: Session, settings: Settings): Promise<Left> =>
	runScreen({ ...processPorts(), session }, setupOf(settings, process.env));
