import { createInterface } from 'node:readline';
import { afterSignals } from '../day/clock.ts';
import { endings, statusOf } from '../screen/endings.ts';
import type { Layout } from '../screen/keys/layouts.ts';
import type { Session } from '../screen/session-port.ts';
import type { Signals } from '../screen/terminal.ts';
import type { Told } from '../voice/ear.ts';
import { openTalk } from './talk.ts';

export type PlainPorts = {
	session: Session;
	input: NodeJS.ReadableStream & { isTTY?: boolean };
	write(text: string): void;
	/** `process`, or what stands in for it. */
	signals: Signals;
};

const look_ms = 1000;

/**
 * Runs a day, or a picker, as lines of text: a question is printed when it is asked, one line answers it. No cursor
 * is moved and nothing is drawn over. However it is left, the session is closed; the end of the input, a signal and a
 * stop are breaks of the day.
 *
 * @returns exit status
 */
export function runPlain(
	{ session, input, write, signals }: PlainPorts,
	layout: Layout,
	told: Omit<Told, 'overdue'>,
): Promise<number> {
	return new Promise(resolve => {
		let open = true;
		const end = (status: number, cutOff: boolean) => {
			if (!open) return;
			open = false;
			callOff();
			for (const [signal, listener] of listeners) signals.off(signal, listener);
			if (cutOff) talk.cutOff('hangup');
			talk.close();
			lines.close();
			resolve(status);
		};
		const carryOn = () => {
			talk.cutOff('suspend');
			talk.look();
		};
		const listeners: [signal: string, listener: () => void][] = [
			...endings.map((signal): [string, () => void] => [signal, () => end(statusOf(signal), true)]),
			['SIGCONT', carryOn],
		];
		const talk = openTalk(
			{ session, write, mono: () => performance.now(), leave: why => end(0, why === 'left') },
			layout,
			told,
		);
		const lines = createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY, terminal: false });
		let callOff = () => {};
		const lookAgain = () => {
			callOff = afterSignals(look_ms, () => {
				lookAgain();
				talk.look();
			});
		};
		for (const [signal, listener] of listeners) signals.on(signal, listener);
		lines.on('line', line => talk.take(line, input.isTTY === true));
		lines.on('close', () => end(0, true));
		lookAgain();
		talk.look();
		// Of an input that was at its end before, readline hears no end.
		if ('readableEnded' in input && input.readableEnded) lines.close();
	});
}
