import { createInterface } from 'node:readline';
import { PassThrough } from 'node:stream';
import { pathToFileURL } from 'node:url';

/**
 * Plays rehearsals of a built program one after another in one process, which reads the program's files once.
 * A line `{"open": […]}` starts the program anew with those words, as a shell would; `{"line": "…"}` is one
 * line for it. What the program writes is passed on as it is; what it died of is one line `{"died": "…"}`.
 */

const [program = ''] = process.argv.slice(2);
const asked = process.stdin;
let input = new PassThrough();
let running = Promise.resolve();
let times = 0;

// Each start listens anew to what is written to.
process.stdout.setMaxListeners(0);

Object.defineProperty(process, 'stdin', { get: () => input });

/** @param {readonly string[]} words */
async function open(words) {
	input.end();
	await running;
	input = new PassThrough();
	process.argv = [process.execPath, program, ...words];
	times += 1;
	running = import(`${pathToFileURL(program)}?${times}`).then(
		() => undefined,
		error => void process.stdout.write(`${JSON.stringify({ died: String(error) })}\n`),
	);
}

for await (const order of createInterface({ input: asked })) {
	const { open: words, line } = JSON.parse(order);
	if (words) await open(words);
	else input.write(`${line}\n`);
}
input.end();
await running;
