import { EventEmitter } from 'node:events';
import { Box, type DOMElement, type Instance, render } from 'ink';
import { createContext, type ReactElement, useContext } from 'react';
import { columnsOf, cutTo, indexAtColumn } from './inert.ts';

/** Drawings by the box that Ink has laid out for each. */
type Drawings = Map<DOMElement, string[]>;
const drawingsContext = createContext<Drawings>(new Map());

/**
 * Rows of text or of block letters. Ink only finds their place: measuring and cutting every character, and reading
 * the tables that it takes, would be most of the work of a frame, and of a start.
 */
export function Drawing({ rows }: { rows: string[] }) {
	const drawings = useContext(drawingsContext);
	const place = (box: DOMElement | null) => {
		if (!box) return;
		drawings.set(box, rows);
		return () => void drawings.delete(box);
	};
	if (rows.length === 0) return null;
	const width = Math.max(...rows.map(columnsOf));
	return <Box ref={place} width={width} height={rows.length} flexShrink={0} />;
}

/** Where a box stands on the screen. */
function placeOf(box: DOMElement): { left: number; top: number } {
	let left = 0;
	let top = 0;
	for (let node: DOMElement | undefined = box; node; node = node.parentNode) {
		left += node.yogaNode?.getComputedLeft() ?? 0;
		top += node.yogaNode?.getComputedTop() ?? 0;
	}
	return { left, top };
}

/** Puts the drawings on the lines of a frame, from left to right; what does not fit into it is cut off. */
function drawOn(lines: string[], drawings: Drawings, columns: number): string[] {
	const drawn = [...lines];
	const places = [...drawings].map(([box, rows]) => ({ rows, ...placeOf(box) }));
	for (const { rows, left, top } of places.sort((one, other) => one.left - other.left))
		for (const [index, row] of rows.slice(0, Math.max(0, lines.length - top)).entries()) {
			const line = drawn[top + index] ?? '';
			const before = line.slice(0, indexAtColumn(line, left));
			const blank = ' '.repeat(Math.max(0, left - columnsOf(before)));
			drawn[top + index] = (before + blank + cutTo(row, columns - left)).trimEnd();
		}
	return drawn;
}

export type Frames = {
	/** Draws an element at a width, and hands back the lines of its frame. */
	show(element: ReactElement, columns: number): string[];
	close(): void;
};

/**
 * Opens Ink on a stream that is no terminal: a builder of frames only. Writing to a terminal itself it moves by
 * relative steps, and clears the scrollback too where a frame is as high as the window; here a painter writes.
 *
 * @param onError is handed what a component has thrown
 */
export function openFrames(onError: (error: unknown) => void): Frames {
	let instance: Instance | null = null;
	let lines: string[] = [];
	const drawings: Drawings = new Map();
	const write = (text: string): boolean => {
		lines = text.split('\n');
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
			instance.rerender(<drawingsContext.Provider value={drawings}>{element}</drawingsContext.Provider>);
			return drawOn(lines, drawings, columns);
		},
		close() {
			// An empty frame first: Ink draws a last one while it is taken down.
			instance?.rerender(null);
			instance?.unmount();
			instance = null;
		},
	};
}
