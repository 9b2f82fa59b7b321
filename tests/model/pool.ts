import { type ChildProcess, fork } from 'node:child_process';

/** Work shared out among copies of this program, each given the next number as soon as it is free. */

/** Whether this program was started as one of those copies. */
export const isHelper = (): boolean => process.send !== undefined;

/** The life of a copy: it answers each number with what `work` makes of it. */
export function help<Result>(work: (number: number) => Promise<Result>): void {
	process.on('message', (number: number) => {
		work(number).then(
			result => process.send?.({ number, result }),
			error => process.send?.({ number, error: String(error) }),
		);
	});
	process.send?.({ ready: true });
}

type Answer<Result> = { ready?: true; number?: number; result?: Result; error?: string };

/**
 * Each of the numbers worked on by `helpers` copies; `done` is told of each as it comes, `failed` of one that threw: the
 * others go on.
 * @throws Error where a copy goes away with work in its hands
 */
export function sharedOut<Result>(
	file: string,
	{ numbers, helpers, memory_MB }: { numbers: readonly number[]; helpers: number; memory_MB: number },
	done: (number: number, result: Result) => void,
	failed: (number: number, error: string) => void,
): Promise<void> {
	const waiting = [...numbers];
	let left = numbers.length;
	if (left === 0) return Promise.resolve();
	return new Promise((resolve, reject) => {
		const children: ChildProcess[] = [];
		const end = (error?: Error) => {
			for (const child of children) child.kill();
			if (error) reject(error);
			else resolve();
		};
		const answered = (child: ChildProcess, { number, result, error }: Answer<Result>) => {
			if (number !== undefined) {
				if (error === undefined) done(number, result as Result);
				else failed(number, error);
				left--;
			}
			if (left === 0) return end();
			const next = waiting.shift();
			if (next !== undefined) child.send(next);
		};
		for (let one = 0; one < helpers; one++) {
			const child = fork(file, [], { execArgv: [`--max-old-space-size=${memory_MB}`] });
			children.push(child);
			child.on('message', (answer: Answer<Result>) => answered(child, answer));
			child.on('exit', code => {
				if (left > 0) end(new Error(`a helper ended with ${code}, ${left} pieces of work undone`));
			});
		}
	});
}
