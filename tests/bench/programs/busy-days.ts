import { EventEmitter } from 'node:events';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough, Writable } from 'node:stream';
import type { Clock } from '../../../src/day/clock.ts';
import { createDay } from '../../../src/day/file/store.ts';
import { noHistory } from '../../../src/day/history.ts';
import { openingRecord } from '../../../src/day/open.ts';
import type { Line } from '../../../src/day/rehearsal.ts';
import { runningClock } from '../../../src/day/running-clock.ts';
import { openSession, type Session } from '../../../src/day/session.ts';
import { standardSettings } from '../../../src/day/standard-settings.ts';
import { loadLists } from '../../../src/job/lists.ts';
import { loadJob } from '../../../src/job/load.ts';
import { painterOf } from '../../../src/painter/painter.ts';
import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import { runScreen } from '../../../src/screen/run.ts';
import { portOf } from '../../../src/screen/session-port.ts';
import { parseQuantity } from '../../../src/trade/quantity.ts';
import { testClock } from '../../screen/test-clock.ts';

/**
 * Three days and nights at the example without a pause: day after day is begun in a file of its own, answered by keys
 * before a terminal that is not there, held now and then, closed and left, on a clock that keys move on. Says what the
 * program has grown by since the end of the first day.
 */
const folder = process.argv[2] ?? '.';
const hours = Number(process.argv[3] ?? 72);
const sheet = 'checklists/example/coffee-cart.yaml';
const loaded = await loadJob(sheet);
const listed = loaded.ok ? await loadLists(loaded.job, sheet) : loaded;
if (!loaded.ok || !listed.ok) throw new Error('the example does not load');
const { job } = loaded;
const { lists } = listed;

const screen = testClock();
const begins = Date.parse('2027-03-02T08:00:00Z');
/** By how much keys have moved the clock on, over all days. */
let ahead_ms = 0;
const base: Clock = {
	now: () => ({ wall: begins + ahead_ms + screen.mono(), mono: screen.mono() }),
	wakeAt() {},
};
const keyOf: Record<string, string> = {
	...{ 'top-left': 'e', 'top-right': 'i', 'bottom-left': 'x', 'bottom-right': ',', hold: ' ' },
};
const [minute_ms, ten_ms] = [60_000, 600_000];
let keys = 0;
const rest = () => new Promise(done => setImmediate(done));

/** Bytes of what a painter does; waiting is done by the keys that move a rehearsal's clock. */
function bytesOf(given: string): string {
	const [word = '', ...more] = given.split(' ');
	if (word === 'number') return `${more[0]}\r`;
	if (word !== 'wait') return keyOf[word] ?? 'e';
	const length = parseQuantity(more.join(' '), 'time');
	const wait_ms = (length.ok ? length.value : 60) * 1000;
	const tens = Math.floor(wait_ms / ten_ms);
	return '\u001b[A'.repeat(tens) + '\u001b[C'.repeat(Math.ceil((wait_ms - tens * ten_ms) / minute_ms));
}

async function day(number: number): Promise<void> {
	const clock = runningClock(base, base.now().wall);
	const started = base.now().wall;
	const opening = {
		job,
		lists,
		settings: { ...standardSettings, by: 'face' as const },
		clock: 'moved' as const,
		program: '0.0.0',
	};
	const first = openingRecord({ ...opening, before: noHistory, zone: 'UTC' }, clock.now());
	const sink = createDay(join(folder, `${number}.day.jsonl`), first);
	const session: Session = openSession({ sink, clock, rehearsal: true });
	const stdout = Object.assign(new Writable({ write: (_chunk, _coding, done) => done() }), {
		...{ columns: 80, rows: 24, isTTY: true },
	});
	const ports = { stdin: new PassThrough(), stdout, clock: screen, signals: new EventEmitter(), stop: null };
	const left = runScreen(
		{ ...ports, session: portOf(session, clock.forward) },
		{ layout: layoutOf('us', null), oneKey: false, style: 'half' },
	);
	const painter = painterOf(job, session.state);
	const type = async (bytes: string) => {
		screen.pass(700);
		ports.stdin.write(bytes);
		await rest();
		screen.pass(70);
		keys++;
	};
	for (let count = 0; session.view().ask !== 'closed' && count < 4000; count++) {
		const { rehearsal: _, ...view } = session.view();
		const line: Line = { ...view, events: [], accepted: true };
		// Now and then a visitor; never in a pass, which would have to be told of.
		const held = count % 37 === 36 && !['spraying', 'hold', 'last-face'].includes(view.ask);
		await type(held ? ' ' : bytesOf(painter.answer(line) ?? 'hold'));
	}
	if (session.view().ask !== 'closed')
		throw new Error(`day ${number} comes to no end in ${session.view().state}`);
	await type('e');
	await left;
	ahead_ms += clock.now().wall - started - (base.now().wall - started);
}

const used_MB = () => {
	globalThis.gc?.();
	return process.memoryUsage().heapUsed / 1e6;
};
const files = () => readdirSync('/proc/self/fd').length;
const cpu_s = () => {
	const { user, system } = process.cpuUsage();
	return (user + system) / 1e6;
};

type Mark = { MB: number; files: number; ms_a_key: number };
const marks: Mark[] = [];
for (let number = 1; base.now().wall - begins < hours * 3_600_000; number++) {
	const [before, struck] = [cpu_s(), keys];
	await day(number);
	await rest();
	marks.push({ MB: used_MB(), files: files(), ms_a_key: ((cpu_s() - before) * 1000) / (keys - struck) });
}
const [one, last] = [marks[0], marks.at(-1)];
if (!one || !last) throw new Error('no day went by');
const grown = { MB: last.MB - one.MB, files: last.files - one.files };
const pace = { first_ms: marks[1]?.ms_a_key ?? one.ms_a_key, last_ms: last.ms_a_key };
process.stdout.write(`${JSON.stringify({ days: marks.length, keys, grown, pace })}\n`, () => process.exit(0));
