import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

type Does = {
	/** How long it takes to say something, ms. */
	takes_ms?: number;
	/** It ends with a failure. */
	fails?: boolean;
};

/** A folder of small programs of this test, run as the system's own would be, and what they have written down. */
export function fakePrograms() {
	const folder = mkdtempSync(join(tmpdir(), 'fanwise-fake-'));
	const log = join(folder, 'log');
	return {
		env: { PATH: folder },
		/** Puts one there: it writes down that it began, with its arguments and what it read, and that it ended. */
		add(name: string, { takes_ms = 0, fails = false }: Does = {}) {
			const source = `#!${process.execPath}
const { appendFileSync, readFileSync } = require('node:fs');
const note = words => appendFileSync(${JSON.stringify(log)}, words + '\\n');
const words = [${JSON.stringify(name)}, ...process.argv.slice(2).map(word => word.replace(/^.*[/]/, ''))].join(' ');
note('begins ' + words + '|' + readFileSync(0, 'utf8'));
setTimeout(() => { note('ends ' + words); process.exit(${fails ? 1 : 0}); }, ${takes_ms});
`;
			writeFileSync(join(folder, name), source, { mode: 0o755 });
		},
		log: () => (existsSync(log) ? readFileSync(log, 'utf8').split('\n').filter(Boolean) : []),
	};
}

/** Waits until something holds. */
export async function until(holds: () => boolean, within_ms = 8000): Promise<void> {
	for (const end = performance.now() + within_ms; !holds(); ) {
		if (performance.now() > end) throw new Error(`not so within ${within_ms} ms: ${holds}`);
		await new Promise(done => setTimeout(done, 15));
	}
}

export const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));
