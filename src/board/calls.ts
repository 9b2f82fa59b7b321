import { closeSync, existsSync, fdatasyncSync, mkdirSync, openSync, readFileSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import * as z from 'zod/mini';
import { allowed_min, type Lookout } from './lookout.ts';

/** The calls of this board, kept in a file of its own that is only added to: a board started anew still calls. */
export type Calls = {
	/**
	 * Since when somebody should look in on a day, ms; null: nobody need.
	 * @param isHeard some program has the day open
	 */
	calling(day: string, lookout: Lookout, isHeard: boolean, at: number): number | null;
	/**
	 * Somebody did.
	 * @returns false: nobody was called for
	 * @throws the system's error where the name was not kept: the call goes on
	 */
	lookedIn(day: string, name: string, at: number): boolean;
};

const lineSchema = z.union([
	z.object({ at: z.iso.datetime(), day: z.string(), called: z.iso.datetime() }),
	z.object({ at: z.iso.datetime(), day: z.string(), name: z.string() }),
]);
type Line = z.infer<typeof lineSchema>;

type Known = { called: number | null; looked: number };

/** Lines that a crash left half written are passed over. */
function readLines(path: string): Line[] {
	if (!existsSync(path)) return [];
	return readFileSync(path, 'utf8')
		.split('\n')
		.flatMap(text => {
			try {
				const read = lineSchema.safeParse(JSON.parse(text));
				return read.success ? [read.data] : [];
			} catch {
				return [];
			}
		});
}

/** On a line of its own, whatever a crash left before it. */
function add(path: string, line: Line): void {
	mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
	const handle = openSync(path, 'a', 0o600);
	try {
		writeSync(handle, `\n${JSON.stringify(line)}\n`);
		fdatasyncSync(handle);
	} finally {
		closeSync(handle);
	}
}

const iso = (at: number): string => new Date(at).toISOString();

/** @param unkept is told once where the file of a call is not written: it is called for all the same */
export function openCalls(path: string, unkept: (error: unknown) => void): Calls {
	const known = new Map<string, Known>();
	const of = (day: string): Known => known.get(day) ?? { called: null, looked: Number.NEGATIVE_INFINITY };
	for (const line of readLines(path))
		known.set(
			line.day,
			'called' in line
				? { ...of(line.day), called: Date.parse(line.called) }
				: { called: null, looked: Date.parse(line.at) },
		);
	let isSaid = false;

	/** Whoever looked in and left the painter silent is called again; where no program has the day, once is enough. */
	const due = ({ looked }: Known, { answered, calls }: Lookout, isHeard: boolean): number => {
		if (answered > looked) return calls;
		return isHeard ? Math.max(calls, looked + allowed_min.step * 60_000) : Number.POSITIVE_INFINITY;
	};
	return {
		calling(day, lookout, isHeard, at) {
			const so = of(day);
			if (so.called !== null) return so.called;
			const called = due(so, lookout, isHeard);
			if (at < called) return null;
			known.set(day, { ...so, called });
			try {
				add(path, { at: iso(at), day, called: iso(called) });
			} catch (error) {
				if (!isSaid) unkept(error);
				isSaid = true;
			}
			return called;
		},
		lookedIn(day, name, at) {
			if (of(day).called === null) return false;
			add(path, { at: iso(at), day, name });
			known.set(day, { called: null, looked: at });
			return true;
		},
	};
}
