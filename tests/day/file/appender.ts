import { createDay, openDay } from '../../../src/day/file/store.ts';
import { first, following } from './sample.ts';

/** A program that appends keys of one to four records until it is killed, and says what was acknowledged. */
const [path = '', how] = process.argv.slice(2);
const day = how === 'new' ? createDay(path, first) : openDay(path);
const last = day.records.at(-1);
const run = how === 'new' ? 1 : (last?.run ?? 0) + 1;
process.stdout.write(`${last?.seq ?? 0}\n`);
for (let seq = (last?.seq ?? 0) + 1; ; ) {
	const count = 1 + (seq % 4);
	day.append(following(seq, count, run));
	seq += count;
	process.stdout.write(`${seq - 1}\n`);
}
