import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadDay } from '../../../src/day/file/days.ts';
import { glimpseDay } from '../../../src/day/file/glimpse.ts';
import { asWritten } from '../../../src/day/file/line-ends.ts';
import { openDays } from '../../../src/day/file/open-days.ts';
import { salvageDay } from '../../../src/day/file/salvage.ts';
import { createDay, openDay, otherEndsSaid, readBytes } from '../../../src/day/file/store.ts';
import { newPlace } from './place.ts';
import { first, following } from './sample.ts';

/** A day of the keys `1`, `2 3`, `4`, and what another program made of its bytes. */
const changed = (change: (bytes: Buffer) => Uint8Array) => {
	const path = join(newPlace(), '2027-03-02_job.day.jsonl');
	const day = createDay(path, first);
	day.append(following(2, 2));
	day.append(following(4, 1));
	day.close();
	const bytes = readFileSync(path);
	writeFileSync(path, change(bytes));
	return { path, bytes, said: [] as string[] };
};
const crlf = (bytes: Buffer) => Buffer.from(bytes.toString('latin1').replaceAll('\n', '\r\n'), 'latin1');
const unended = (bytes: Buffer) => bytes.subarray(0, -1);

test.for([
	['a last line without its end', unended],
	['line ends of CR and LF', crlf],
	['both', (bytes: Buffer) => unended(crlf(bytes))],
	['CR and LF, the last LF cut away with its CR', (bytes: Buffer) => unended(unended(crlf(bytes)))],
] as const)(
	'a day with %s is whole: it is read, saved and gone on with, and nothing of it is lost',
	([, change]) => {
		const { path, bytes, said } = changed(change);
		expect(readBytes(path)).toEqual(bytes);
		expect(loadDay(path)).toHaveLength(4);
		expect(glimpseDay(readBytes(path))).toMatchObject({ upto: 4 });
		expect(openDays(join(path, '..')).length).toBe(
			first.type === 'day.opened' && first.clock === 'real' ? 1 : 0,
		);
		const target = join(path, '..', 'saved');
		expect(salvageDay(path, target)).toMatchObject({ savedRecords: 4, lost: [] });
		expect(readFileSync(target)).toEqual(bytes);
		const day = openDay(path, { onTrouble: message => said.push(message) });
		expect(day.torn).toBeNull();
		day.append(following(5, 1));
		day.close();
		expect(readFileSync(path).subarray(0, bytes.length)).toEqual(bytes);
		expect(loadDay(path)).toHaveLength(5);
		expect(said.every(message => message.includes('changed its line ends'))).toBe(true);
	},
);

test('changed line ends are said once, and not of a day that has its own', () => {
	const { path, said } = changed(crlf);
	expect(otherEndsSaid(path)).toMatch(/has changed the line ends of this day file; nothing of it is lost$/);
	for (let time = 0; time < 2; time++) openDay(path, { onTrouble: message => said.push(message) }).close();
	expect(said).toHaveLength(1);
	expect(otherEndsSaid(path)).toBeNull();
});

test('a tail whose checksum does not fit stays torn, and damage stays damage', () => {
	const { bytes } = changed(unended);
	for (let cut = 2; cut < 40; cut++) {
		const torn = bytes.subarray(0, -cut);
		expect(asWritten(torn)).toBe(torn);
	}
	const { path } = changed(whole => {
		const ended = crlf(whole);
		ended[ended.length - 9] = 0;
		return ended;
	});
	expect(() => openDay(path)).toThrow(/:4: the day file is damaged: its checksum does not fit/);
});
