import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import * as z from 'zod/mini';

const place = z.enum(['topLeft', 'topRight', 'bottomLeft', 'bottomRight']);
export type Place = z.infer<typeof place>;

/** One line that a rehearsal answers with: the fields that are relied on from outside. */
const seen = z.object({
	at: z.string(),
	state: z.string(),
	ask: z.string(),
	of: z.optional(z.string()),
	say: z.string(),
	min: z.optional(z.number()),
	max: z.optional(z.number()),
	corners: z.partialRecord(place, z.object({ code: z.string(), text: z.string() })),
	face: z.nullable(z.string()),
	coat: z.nullable(z.number()),
	cup: z.optional(z.array(z.string())),
	do: z.array(z.object({ code: z.string(), to: z.union([z.string(), z.number()]) })),
	timers: z.array(z.object({ code: z.string(), face: z.nullable(z.string()), left_s: z.number() })),
	faces: z.array(z.object({ face: z.string(), coats: z.number(), planned: z.number(), aside: z.boolean() })),
	open: z.array(z.unknown()),
	events: z.array(z.string()),
	accepted: z.boolean(),
	reason: z.optional(z.object({ code: z.string(), text: z.string() })),
});
export type Seen = z.infer<typeof seen>;

export type Rehearsals = {
	/** Begins a rehearsal of a job sheet and gives its first screen. */
	open(sheet: string): Promise<Seen>;
	/** Gives the program one line and waits for what it answers. */
	say(line: string): Promise<Seen>;
	/** Ends the process that plays. */
	end(): void;
};

/** The words after the name of the program that rehearse a sheet line by line. */
export const wordsFor = (sheet: string): string[] => [
	...['rehearse', sheet, '--json', '--start', '2027-03-02T08:00:00Z'],
];

/** The program that `npm run build` has made, or another to try. */
export const program = resolve(process.env.FANWISE ?? 'dist/fanwise.js');

/** What a line of output says; an error where it lacks a field that is relied on. */
export const seenIn = (answer: unknown): Seen => z.parse(seen, answer);

/** Answers of a child process, in the order of what was asked of it. */
function answersOf(player: ChildProcess): () => Promise<unknown> {
	const waiting: { resolve: (answer: unknown) => void; reject: (error: Error) => void }[] = [];
	if (player.stdout) {
		createInterface({ input: player.stdout }).on('line', line => waiting.shift()?.resolve(JSON.parse(line)));
	}
	player.on('exit', code => {
		for (const { reject } of waiting) reject(new Error(`the program went away with ${code}`));
	});
	return () => new Promise((resolve, reject) => waiting.push({ resolve, reject }));
}

/** Rehearsals of the built program in one process, one at a time. */
export function rehearsals(): Rehearsals {
	const player = spawn(process.execPath, [join(import.meta.dirname, 'player.js'), program], {
		stdio: ['pipe', 'pipe', 'inherit'],
		env: { ...process.env, FANWISE_HOME: mkdtempSync(join(tmpdir(), 'met-')) },
	});
	const answer = answersOf(player);
	const ask = async (order: object): Promise<Seen> => {
		const next = answer();
		player.stdin?.write(`${JSON.stringify(order)}\n`);
		return seenIn(await next);
	};
	return {
		open: sheet => ask({ open: wordsFor(sheet) }),
		say: line => ask({ line }),
		end: () => player.stdin?.end(),
	};
}
