/**
 * The trace over a shop's whole store: seconds and highest memory for 250, 500 and 1,000 generated day files of
 * about 500 records, each count in a process of its own. From the root of the project:
 *
 *     npx esbuild tests/bench/trace.ts --bundle --packages=external --platform=node --format=esm \
 *       --outfile=dist/bench-trace.js && node dist/bench-trace.js
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { jobsIn } from '../../src/cli/day-files.ts';
import { acrossDays } from '../../src/trace/across.ts';
import { loadFaults } from '../../src/trace/load-faults.ts';
import { writeDays } from '../trace/files.ts';
import { makeCase } from '../trace/generator/case.ts';

function write(folder: string, from: number, files: number): number {
	let records = 0;
	let made = 0;
	for (let seed = from * 20 + 1; made < files; seed++) {
		const { days } = makeCase(seed);
		const count = days[0]?.length ?? 0;
		if (days.length !== 1 || count < 420 || count > 580) continue;
		writeDays(folder, `cart-${String.fromCharCode(97 + (made % 26))}${from + made}x`, days);
		records += count;
		made++;
	}
	return records;
}

function measure(folder: string): void {
	const began = performance.now();
	const silent = { write: (text: string) => process.stderr.write(text) };
	const found = acrossDays(jobsIn(folder, { stdout: silent, stderr: silent, env: {} }), loadFaults());
	const seconds = (performance.now() - began) / 1000;
	const cpu_s = process.cpuUsage().user / 1e6;
	const memory_MB = process.resourceUsage().maxRSS / 1024;
	process.stdout.write(
		`${found.days} files: ${seconds.toFixed(2)} s (${cpu_s.toFixed(2)} s of processor with start-up), ${memory_MB.toFixed(0)} MB, ${found.faults.length} fault kinds\n`,
	);
}

const [given] = process.argv.slice(2);
if (given) measure(given);
else {
	const root = mkdtempSync(join(tmpdir(), 'fanwise-bench-'));
	let files = 0;
	let records = 0;
	for (const count of [250, 500, 1000]) {
		records += write(root, files, count - files);
		files = count;
		process.stdout.write(`${Math.round(records / files)} records a file; `);
		const { stdout } = spawnSync(process.execPath, [fileURLToPath(import.meta.url), root], {
			encoding: 'utf8',
		});
		process.stdout.write(stdout);
	}
	rmSync(root, { recursive: true });
}
