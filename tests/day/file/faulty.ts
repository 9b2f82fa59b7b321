import type { Processes } from '../../../src/day/file/lock.ts';
import { disk, type FilePort } from '../../../src/day/file/port.ts';

export type Fault = 'fail' | 'short' | 'lying-short' | 'garble' | 'half-then-fail';

const failing = (code: string) => Object.assign(new Error(code), { code });

const tampered = (
	fault: Fault,
	bytes: Uint8Array,
	from: number,
	write: (part: Uint8Array) => number,
): number => {
	const rest = bytes.subarray(from);
	const half = rest.subarray(0, Math.ceil(rest.length / 2));
	if (fault === 'garble') return write(rest.map((byte, at) => (at === 3 ? byte ^ 4 : byte)));
	if (fault === 'fail') throw failing('ENOSPC');
	const taken = write(half);
	if (fault === 'half-then-fail') throw failing('ENOSPC');
	return fault === 'lying-short' ? rest.length : taken;
};

/**
 * The real disk, with some of its calls going wrong. It does not wait for the metal: what is read back is what was
 * written, and the order of the calls is what matters.
 *
 * @param wrong which calls, counted from 1 over all of them
 * @param lasting from the first of them on every call goes wrong
 */
export const faultyPort = (wrong: readonly number[], fault: Fault = 'fail', lasting = false) => {
	const calls: string[] = [];
	const isDue = (call: string) => {
		calls.push(call);
		return wrong.includes(calls.length) || (lasting && calls.length >= Math.min(...wrong));
	};
	const count = <Given extends unknown[], Found>(name: string, call: (...given: Given) => Found) => {
		return (...given: Given): Found => {
			if (isDue(name) && name !== 'close') throw failing(name === 'sync' ? 'EIO' : 'EACCES');
			return call(...given);
		};
	};
	const port: FilePort = {
		...disk,
		write: (handle, bytes, from) => {
			if (!isDue('write')) return disk.write(handle, bytes, from);
			return tampered(fault, bytes, from, part => disk.write(handle, part, 0));
		},
		open: count('open', disk.open),
		sync: count('sync', () => {}),
		syncFolder: count('syncFolder', () => {}),
		close: count('close', disk.close),
		rename: count('rename', disk.rename),
		link: count('link', disk.link),
		unlink: count('unlink', disk.unlink),
		read: count('read', disk.read),
		pieces: count('pieces', disk.pieces),
		stat: count('stat', disk.stat),
		real: count('real', disk.real),
	};
	return { port, calls };
};

/** As if every lock that is found had been left by a program that died. */
export const allDead: Processes = {
	me: () => ({ pid: process.pid, start: null, host: 'here' }),
	standing: () => 'gone',
};
