import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { jobsIn } from '../../src/cli/day-files.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { acrossDays } from '../../src/trace/across.ts';
import type { FaultData } from '../../src/trace/faults.ts';
import { loadFaults } from '../../src/trace/load-faults.ts';
import { trace } from '../../src/trace/trace.ts';
import { writeDays } from '../trace/files.ts';
import { type Case, makeCase } from '../trace/generator/case.ts';
import { builtProgram, root } from './built.ts';
import { beside, cpu_ms, type Figure, inPairs, time_ms, under } from './figure.ts';

const files = 300;
const pairs = 5;

/** Day files of about 500 records each. */
function fill(store: string): void {
	for (let seed = 1, made = 0; made < files; seed++) {
		const { days } = makeCase(seed);
		const count = days[0]?.length ?? 0;
		if (days.length !== 1 || count < 420 || count > 580) continue;
		writeDays(store, `cart-${String.fromCharCode(97 + (made % 26))}${made}x`, days);
		made++;
	}
}

/** What any reader of the store must do: every line read, and its JSON parsed. */
function bareRead(store: string): void {
	for (const name of readdirSync(store, { recursive: true, encoding: 'utf8' })) {
		if (!name.endsWith('.jsonl')) continue;
		for (const line of readFileSync(join(store, name), 'utf8').split('\n'))
			if (line) JSON.parse(line.slice(9));
	}
}

/** Cases of one day each, other ones for each pair. */
function ofOneDay(): Case[] {
	const found: Case[] = [];
	for (let seed = 1; found.length < pairs; seed++) {
		const made = makeCase(seed);
		if (made.days.length === 1) found.push(made);
	}
	return found;
}

/** The day of a case so many times over, as one job: what was laid is laid again, and every coat is in question. */
const daysOf = ({ days: [day = []] }: Case, count: number): DayRecord[][] =>
	Array.from({ length: count }, (_, nth) =>
		day.map(record =>
			record.type === 'day.opened' && nth > 0
				? { ...record, before: { ...record.before, letters: 1 } }
				: record,
		),
	);

/** The trace over four times as many days of one job: 4 where a day costs the same, 16 where it costs as many as there are. */
async function longJob(faults: FaultData): Promise<Figure> {
	const cases = ofOneDay();
	const over = (count: number) => (pair: number) => {
		const made = cases[pair];
		if (!made) throw new Error('no case for this pair');
		const days = daysOf(made, count);
		return cpu_ms(() => trace({ days, fault: made.fault, face: made.face, coat: made.coat }, faults));
	};
	over(20)(0);
	const found = await inPairs(pairs, over(50), over(200));
	return beside('the trace over 200 days of one job', 'ms', '50 days of it', found, 10);
}

/** The trace over a shop's whole store of days, and the memory of a process that does nothing else. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(root, '.bench-'));
	const store = join(folder, 'days');
	const io = { stdout: process.stderr, stderr: process.stderr, env: {} };
	try {
		fill(store);
		const faults = loadFaults();
		const ours = () => time_ms(() => acrossDays(jobsIn(store, io), faults));
		const bare = () => time_ms(() => bareRead(store));
		bare();
		ours();
		const found = await inPairs(pairs, bare, ours);
		const words = [await builtProgram('store.ts', folder, 'ours'), store];
		const { days, most_MB } = JSON.parse(execFileSync(process.execPath, words, { encoding: 'utf8' }));
		if (days !== files) throw new Error(`${days} days were traced of ${files}`);
		return [
			// A question may take 35 ms, and a day is read and parsed in about one.
			beside(`the trace over ${files} days`, 'ms', 'reading and parsing them', found, 35),
			under(`the trace over ${files} days, memory`, 'MB', most_MB, 250),
			await longJob(faults),
		];
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
