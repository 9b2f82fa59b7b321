import { spawn } from 'node:child_process';
import { closeSync, constants, createReadStream, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { Socket } from 'node:net';
import { inert } from '../job/inert.ts';

/** Where lines come from: hands on the bytes as they arrive, until it is closed or ends by itself. */
export type Source = { close(): void };

export type Heard = {
	bytes(piece: Uint8Array): void;
	/** Nothing more will come. */
	ended(): void;
};

/** A source that cannot be opened: which, and what to do, as plain text whatever its name holds. */
export class SourceError extends Error {
	constructor(message: string) {
		super(inert(message));
	}
}

const commandMark = /^command:\s*/;

/** The words of a command: cut at spaces, except between double quotes. */
export const commandWords = (text: string): string[] =>
	[...text.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare ?? '');

function fromCommand(text: string, { bytes, ended }: Heard): Source {
	const [name, ...args] = commandWords(text);
	if (name === undefined)
		throw new SourceError('--trigger "command:" names no program: command: PROGRAM ARGUMENTS');
	const child = spawn(name, args, { stdio: ['ignore', 'pipe', 'ignore'], windowsHide: true });
	child.stdout.on('data', bytes);
	child.on('error', ended);
	child.on('close', ended);
	return { close: () => void child.kill() };
}

/** A pipe stays open when whoever writes to it goes away: the next one may come. */
function fromPipe(path: string, { bytes, ended }: Heard): Source {
	const fd = openSync(path, constants.O_RDWR | constants.O_NONBLOCK);
	const socket = new Socket({ fd, readable: true, writable: false });
	socket.on('data', bytes);
	socket.on('error', ended);
	socket.on('close', ended);
	return { close: () => void socket.destroy() };
}

const look_ms = 50;

/** A file that something else adds to: only what is added from now on counts; one that was cut is read anew. */
function fromFile(path: string, { bytes, ended }: Heard): Source {
	const fd = openSync(path, 'r');
	let at = fstatSync(fd).size;
	const piece = Buffer.alloc(65_536);
	const look = () => {
		try {
			const { size } = fstatSync(fd);
			if (size < at) at = 0;
			while (at < size) {
				const count = readSync(fd, piece, 0, piece.length, at);
				if (count === 0) return;
				at += count;
				bytes(Buffer.from(piece.subarray(0, count)));
			}
		} catch {
			clearInterval(timer);
			ended();
		}
	};
	const timer = setInterval(look, look_ms);
	return {
		close() {
			clearInterval(timer);
			closeSync(fd);
		},
	};
}

function fromDevice(path: string, { bytes, ended }: Heard): Source {
	const stream = createReadStream(path);
	stream.on('data', piece => bytes(Buffer.from(piece)));
	stream.on('error', ended);
	stream.on('close', ended);
	return { close: () => void stream.destroy() };
}

/** Whether a source is a file with an end, and so may be a recording. */
export const isPlainFile = (source: string): boolean =>
	!commandMark.test(source) && (statSync(source, { throwIfNoEntry: false })?.isFile() ?? false);

/**
 * Opens a source of trigger lines.
 * @param source a path of a pipe, a device or a file that grows, or `command: PROGRAM ARGUMENTS`, run without a shell
 * @throws SourceError where there is no such thing or it cannot be read
 */
export function openSource(source: string, heard: Heard): Source {
	if (commandMark.test(source)) return fromCommand(source.replace(commandMark, ''), heard);
	const about = statSync(source, { throwIfNoEntry: false });
	if (!about)
		throw new SourceError(
			`${source}: there is no such pipe or file: make it with mkfifo, or write command: PROGRAM`,
		);
	if (about.isDirectory()) throw new SourceError(`${source}: is a folder: name a pipe or a file in it`);
	try {
		if (about.isFIFO()) return fromPipe(source, heard);
		return about.isFile() ? fromFile(source, heard) : fromDevice(source, heard);
	} catch (error) {
		throw new SourceError(`${source}: cannot be read: ${error instanceof Error ? error.message : error}`);
	}
}
