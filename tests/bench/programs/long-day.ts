import { EventEmitter } from 'node:events';
import { PassThrough, Writable } from 'node:stream';
import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import { runScreen } from '../../../src/screen/run.ts';
import { portOf } from '../../../src/screen/session-port.ts';
import { testClock } from '../../screen/test-clock.ts';
import { playedDay } from './played-day.ts';

/**
 * Twelve hours of the example day before a terminal that is not there, on a clock that is moved: the painter's
 * answers a minute apart, a hold by its key every third minute, every frame between them drawn. The day is not closed.
 */
const clock = testClock();
const day = await playedDay({
	now: () => ({ wall: clock.mono(), mono: clock.mono() }),
	wakeAt() {},
});
const stdout = Object.assign(new Writable({ write: (_chunk, _coding, done) => done() }), {
	columns: 80,
	rows: 24,
	isTTY: true,
});
const ports = { stdin: new PassThrough(), stdout, clock, signals: new EventEmitter(), stop() {} };
void runScreen(
	{ ...ports, session: portOf(day.session) },
	{ layout: layoutOf('us', null), oneKey: false, style: 'half' },
);

const hour_ms = 3_600_000;
const used_MB = () => {
	globalThis.gc?.();
	return process.memoryUsage().heapUsed / 1e6;
};
const rest = () => new Promise(done => setImmediate(done));
const began = clock.mono();
let minute = 0;
let first_MB = 0;
while (clock.mono() - began < 12 * hour_ms) {
	if (minute++ % 3 === 2) ports.stdin.write(' ');
	else day.step();
	await rest();
	for (let second = 0; second < 60; second++) clock.pass(1000);
	await rest();
	if (first_MB === 0 && clock.mono() - began >= hour_ms) first_MB = used_MB();
}
process.stdout.write(
	`${JSON.stringify({ first_MB, last_MB: used_MB(), records: day.records.length })}\n`,
	() => process.exit(0),
);
