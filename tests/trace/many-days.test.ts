import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { jobsIn } from '../../src/cli/day-files.ts';
import { loadDay } from '../../src/day/file/days.ts';
import { readLight } from '../../src/day/file/read-light.ts';
import { readBytes } from '../../src/day/file/store.ts';
import { acrossDays } from '../../src/trace/across.ts';
import { builtIn } from './built-in.ts';
import { writeDays } from './files.ts';
import { makeCase } from './generator/case.ts';
import { tuning } from './generator/seeds.ts';

const cases = Array.from({ length: 100 }, (_, nth) => makeCase(tuning.from + nth));
const folder = mkdtempSync(join(tmpdir(), 'fanwise-many-'));
const paths = cases.flatMap((one, nth) => writeDays(folder, `cart-${nth}x`, one.days));
const silent = { write: () => true };

test('some hundred days are read and counted from their files as well as from memory', () => {
	const found = acrossDays(jobsIn(folder, { stdout: silent, stderr: silent, env: {} }), builtIn);
	const sum = acrossDays(
		cases.map(one => one.days),
		builtIn,
	);
	expect(found.days).toBe(paths.length);
	expect(found.breaks).toEqual(sum.breaks);
	expect(found.faults.map(one => one.faces)).toEqual(sum.faults.map(one => one.faces));
});

test('the light reading gives what the full one gives, and leaves every odd file to it', () => {
	for (const path of paths.slice(0, 10)) {
		const bytes = readBytes(path);
		expect(readLight(bytes)).toEqual(loadDay(path));
		expect(readLight(bytes.subarray(0, bytes.length - 1))).toBeNull();
		const flipped = Uint8Array.from(bytes);
		flipped[bytes.length - 40] = (flipped[bytes.length - 40] ?? 0) ^ 1;
		expect(readLight(flipped)).toBeNull();
	}
	expect(readLight(new Uint8Array())).toBeNull();
});
