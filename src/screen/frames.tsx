import { EventEmitter } from 'node:events';
import { type Instance, render } from 'ink';
import type { ReactElement } from 'react';

export type Frames = {
	/** Draws an element; its frame has come by the time this returns. */
	show(element: ReactElement, columns: number): void;
	close(): void;
};

/**
 * Opens Ink on a stream that is no terminal: a builder of frames only. Writing to a terminal itself it moves by
 * relative steps, and clears the scrollback too where a frame is as high as the window; here a painter writes.
 *
 * @param onFrame is handed the lines of every frame
 * @param onError is handed what a component has thrown
 */
export function openFrames(onFrame: (lines: string[]) => void, onError: (error: unknown) => void): Frames {
	let instance: Instance | null = null;
	const write = (text: string): boolean => {
		if (instance) onFrame(text.split('\n'));
		return true;
	};
	const made = { columns: 80, rows: 1000, isTTY: false, write };
	const stream = Object.assign(new EventEmitter(), made) as unknown as NodeJS.WriteStream;
	const input = Object.assign(new EventEmitter(), { isTTY: false }) as unknown as NodeJS.ReadStream;
	const open = (): Instance =>
		render(null, {
			stdout: stream,
			stderr: stream,
			stdin: input,
			debug: true,
			exitOnCtrlC: false,
			patchConsole: false,
			isScreenReaderEnabled: false,
		});
	return {
		show(element, columns) {
			stream.columns = columns;
			if (!instance) {
				instance = open();
				instance.waitUntilExit().catch(onError);
			}
			instance.rerender(element);
		},
		close() {
			const closing = instance;
			instance = null;
			closing?.unmount();
		},
	};
}
