import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { historyAfter } from '../../src/day/history.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { built } from '../built.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { root } from './built.ts';
import { beside, type Figure, inPairs, under } from './figure.ts';
import { inPty } from './in-pty.ts';

const pairs = 15;
const earlierDays = 1000;
const day_ms = 86_400_000;
const longest_ms = 120_000;
const fanwise = join(root, built());
const sheet = join(root, 'checklists/example/coffee-cart.yaml');

/** The example's two days, 190 and 420 records, the topcoat on what the primer left. */
async function twoDays(): Promise<DayRecord[][]> {
	const loaded = await loadJob(sheet);
	const listed = loaded.ok ? await loadLists(loaded.job, sheet) : loaded;
	if (!loaded.ok || !listed.ok) throw new Error('the example does not load');
	const { job } = loaded;
	const { lists } = listed;
	const play = (at: number, before?: ReturnType<typeof historyAfter>) => {
		const day = rehearsed({ job, lists, at, ...(before && { before }), settings: { by: 'face' } });
		day.toEnd();
		return day
			.records()
			.map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));
	};
	const at = Date.parse('2015-01-05T08:00:00Z');
	const primer = play(at);
	return [primer, play(at + 2 * day_ms, historyAfter(primer))];
}

/**
 * The same two days over and over, four days from job to job: a shop that does one job, ten years long. The last is a
 * primer day, so that there is something left to spray.
 */
async function fill(home: string): Promise<void> {
	const folder = makeDaysFolder(join(home, 'days'));
	const days = (await twoDays()).map(day => JSON.stringify(day));
	const later = (iso: string, job: number) => new Date(Date.parse(iso) + job * 4 * day_ms).toISOString();
	for (let nth = 1; nth <= earlierDays; nth++) {
		const text = days[nth % 2] ?? '';
		const moved = text.replace(
			/"(\d{4}-\d\d-\d\dT[\d:.]+Z)"/g,
			(_all, iso) => `"${later(iso, Math.floor(nth / 2))}"`,
		);
		const records: DayRecord[] = JSON.parse(moved);
		const name = `${records[0]?.at.slice(0, 10)}_market-coffee-cart.day.jsonl`;
		writeFileSync(join(folder, name), encodeKey(records, undefined));
	}
}

type Begun = { took_ms: number; most_MB: number };

/** From the start of the process to the first prompt of a day that is begun, and the most memory until then. */
const begin = (home: string, earlier: ReadonlySet<string>): Promise<Begun> =>
	new Promise((resolve, reject) => {
		const from = performance.now();
		const env = { FANWISE_HOME: home, XDG_CACHE_HOME: join(home, 'cache') };
		const child = inPty([fanwise, 'spray', sheet], { cwd: home, env });
		/** One that asks something else first is no measurement. */
		const late = setTimeout(() => child.kill('SIGTERM'), longest_ms);
		let seen = '';
		let begun: Begun | null = null;
		child.onData(data => {
			const took_ms = performance.now() - from;
			seen += data;
			if (begun || !/Breathing gear|: wipe/.test(seen)) return;
			const [, kB] = /VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8')) ?? [];
			begun = { took_ms, most_MB: Number(kB) / 1024 };
			child.kill('SIGTERM');
		});
		child.onExit(() => {
			clearTimeout(late);
			const folder = makeDaysFolder(join(home, 'days'));
			for (const name of readdirSync(folder)) if (!earlier.has(name)) rmSync(join(folder, name));
			if (begun) resolve(begun);
			else reject(new Error(`spray ended before its first question:\n${seen}`));
		});
	});

/** A day begun with 1,000 days behind it against one without; what they teach was kept at the start before. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(tmpdir(), 'fanwise-bench-'));
	try {
		const [full, bare] = [join(folder, 'full'), join(folder, 'bare')];
		await fill(full);
		makeDaysFolder(join(bare, 'days'));
		const none = new Set<string>();
		const daysOf = new Set(readdirSync(join(full, 'days')));
		const first = await begin(full, new Set([...daysOf, ...[...daysOf].map(name => `${name}.sums`)]));
		await begin(bare, none);
		const earlier = new Set(readdirSync(join(full, 'days')));
		let most_MB = 0;
		const found = await inPairs(
			pairs,
			async () => (await begin(bare, none)).took_ms,
			async () => {
				const begun = await begin(full, earlier);
				most_MB = Math.max(most_MB, begun.most_MB);
				return begun.took_ms;
			},
		);
		const name = `fanwise spray JOB with ${earlierDays} earlier days`;
		return [
			beside(name, 'ms', 'the same with none', found, 1.3),
			under(`${name}, memory`, 'MB', most_MB, 120),
			under(`${name}, memory the first time`, 'MB', first.most_MB, 120),
		];
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
