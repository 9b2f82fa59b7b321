import { openDesk } from './desk.ts';
import type { HandsSetup } from './hands.ts';
import type { GlyphStyle } from './letters.ts';
import type { Size } from './passing.ts';
import type { Session } from './session-port.ts';
import { type Left, onStage, type StagePorts } from './stage.ts';

export type ScreenSetup = HandsSetup & {
	style: GlyphStyle;
	/** Says from how far a window of a size can be read: told when the window is changed. */
	read?(size: Size): string;
};
export type ScreenPorts = StagePorts & { session: Session };

/**
 * Runs a day's screen until it is left. However it is left, the terminal is given back as it was and the session
 * is closed; a hangup, a signal and a stop are breaks of the day.
 *
 * @returns why it was left
 * @throws what a drawing has thrown; anything else that throws ends the program after the terminal was given back
 */
export function runScreen({ session, ...ports }: ScreenPorts, setup: ScreenSetup): Promise<Left> {
	return onStage(ports, setup.style, ({ face, ...stage }) => {
		const desk = openDesk({ ...stage, session, clock: ports.clock, show: face.show }, setup);
		return {
			...desk,
			draw() {
				desk.draw();
				if (setup.read && !stage.blind()) desk.tell(setup.read(stage.size()));
			},
			cutOff(kind) {
				// Whoever has gone away needs no picture of it.
				if (kind === 'hangup') desk.close();
				session.break(kind);
			},
			close() {
				desk.close();
				session.close();
			},
		};
	});
}
