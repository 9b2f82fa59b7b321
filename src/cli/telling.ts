import type { OnTrouble } from '../day/file/keep.ts';
import type { Session } from '../screen/session-port.ts';
import { told } from '../trigger/told.ts';
import type { Io } from './command.ts';

/** Trouble with the disk that was got over: said in full where errors go, and in a few words on the screen of the day. */
export type Telling = {
	onTrouble: OnTrouble;
	/** A day's screen with what was told before and what will be. */
	on(session: Session): Session;
};

export function openTelling(io: Io): Telling {
	let before: string[] = [];
	let tell = (far: string): void => {
		before.push(far);
	};
	return {
		onTrouble(message, far) {
			io.stderr.write(`${message}\n`);
			tell(far);
		},
		on(session) {
			const telling = told(session);
			for (const far of before) telling.tell(far);
			before = [];
			tell = telling.tell;
			return telling.session;
		},
	};
}
