import type { Key } from './keys/key.ts';
import { awaits, parse, parserStart, waited } from './keys/parse.ts';
import { keyTimes } from './keys/thresholds.ts';
import type { ScreenClock } from './session-port.ts';
import type { TerminalInput } from './terminal.ts';
import { openTimer } from './timer.ts';

export type Keyboard = {
	/** The program was stopped and continued: half a key is no key, and the clock's gap is known. */
	forget(): void;
	close(): void;
};

type Heard = { onKey(key: Key): void; onStall(): void };

/**
 * Reads keys from a terminal. Before any key that was waiting while the program stood still, `onStall` is called:
 * it was meant for an older screen.
 */
export function openKeyboard(stdin: TerminalInput, clock: ScreenClock, heard: Heard): Keyboard {
	let parser = parserStart;
	let looked = clock.mono();
	const look = () => {
		const now = clock.mono();
		const stood = now - looked >= keyTimes.stall_ms;
		looked = now;
		heartbeat.set(keyTimes.heartbeat_ms);
		if (stood) heard.onStall();
	};
	const heartbeat = openTimer(clock, look);
	const take = (read: ReturnType<typeof parse>) => {
		parser = read.state;
		const waits = awaits(parser);
		silence.set(waits === null ? null : waits === 'paste' ? keyTimes.paste_ms : keyTimes.escape_ms);
		for (const key of read.keys) heard.onKey(key);
	};
	const silence = openTimer(clock, () => take(waited(parser)));
	const onData = (chunk: Buffer | string) => {
		look();
		take(parse(parser, Buffer.from(chunk)));
	};
	stdin.on('data', onData);
	heartbeat.set(keyTimes.heartbeat_ms);
	return {
		forget() {
			parser = parserStart;
			silence.set(null);
			looked = clock.mono();
		},
		close() {
			stdin.off('data', onData);
			silence.set(null);
			heartbeat.set(null);
		},
	};
}
