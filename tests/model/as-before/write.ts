import { spawn } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { type Days, playDay, playJob } from './days.ts';
import { hashesOf, shownIn, writtenIn } from './hashes.ts';
import { sheets, standardLists } from './sheets.ts';

/**
 * Writes the sums of 2,000 days as this program plays them, and fifty of their files. A day of which no end comes is
 * told by `endless`. With `OUT=FOLDER FROM=n TO=m` it writes what was shown and written on those days, to be compared
 * line by line.
 */

const here = 'tests/model/as-before';
const count = 2000;
const { OUT, SUMS, FROM = '0', TO = String(count) } = process.env;
const days: Days = { jobs: sheets(), lists: standardLists() };

/** Longest that a day may take to be played, ms: the others take a tenth of a second. */
const patience_ms = 5_000;

/** The sums from a day on, by another process, until one has no end. */
function sumsFrom(from: number, rows: string[]): Promise<void> {
	return new Promise(done => {
		const child = spawn(process.execPath, [fileURLToPath(import.meta.url)], {
			env: { ...process.env, SUMS: '1', FROM: String(from) },
			stdio: ['ignore', 'pipe', 'inherit'],
		});
		let timer = setTimeout(() => child.kill('SIGKILL'), patience_ms);
		createInterface({ input: child.stdout }).on('line', row => {
			rows.push(row);
			clearTimeout(timer);
			timer = setTimeout(() => child.kill('SIGKILL'), patience_ms);
		});
		child.on('close', () => {
			clearTimeout(timer);
			done();
		});
	});
}

function files(): string[] {
	return Array.from({ length: 50 }, (_, index) => {
		const { bytes } = playDay(days, 5000 + index, index % 2 === 0 ? 500 : 40 + index * 6);
		return Buffer.from(bytes).toString('utf8');
	});
}

if (OUT) {
	mkdirSync(OUT, { recursive: true });
	for (let seed = Number(FROM); seed < Number(TO); seed++) {
		const played = playJob(days, seed);
		writeFileSync(`${OUT}/${seed}.shown`, played.flatMap(({ lines }) => shownIn(lines)).join('\n'));
		writeFileSync(`${OUT}/${seed}.written`, played.flatMap(({ records }) => writtenIn(records)).join('\n'));
	}
} else if (SUMS) {
	for (let seed = Number(FROM); seed < Number(TO); seed++)
		process.stdout.write(`${hashesOf(playJob(days, seed)).join(' ')}\n`);
} else {
	const rows: string[] = [];
	while (rows.length < count) {
		await sumsFrom(rows.length, rows);
		if (rows.length < count) rows.push('endless');
	}
	writeFileSync(`${here}/hashes.txt`, `${rows.join('\n')}\n`);
	writeFileSync(`${here}/files.json.gz`, gzipSync(JSON.stringify(files()), { level: 9 }));
}
