import { readdirSync, readFileSync } from 'node:fs';
import { crc32 } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { lid } from './cart-sheet.ts';
import { checkDayFile } from './check.ts';
import { changed, find, like, lineOf, putAfter, seal, without } from './draft.ts';
import { placeOf } from './letters.ts';
import { crc32Hex, type Raw } from './lines.ts';
import { expectFound, type Mutilation } from './mutilated.ts';

describe('the lines of a file', () => {
	test('the check sum is that of zlib and of the published check value', () => {
		expect(crc32Hex(Buffer.from('123456789'))).toBe('cbf43926');
		for (const text of ['', 'counter lid', 'µm °C ☂'])
			expect(Number.parseInt(crc32Hex(Buffer.from(text)), 16)).toBe(crc32(text));
	});

	test('a flipped bit is found in every byte of a line, whichever bit it is', () => {
		const bytes = seal(cartDay().slice(0, 4));
		const from = bytes.indexOf(10) + 1;
		for (let at = from; at < bytes.length - 1; at++) {
			const spoiled = Uint8Array.from(bytes);
			spoiled[at] = (bytes[at] ?? 0) ^ (1 << (at % 8));
			expect(checkDayFile(spoiled).map(({ property }) => property)).toContain('form');
		}
	});

	test('a file that opens no day is not a day', () => {
		expect(checkDayFile(new Uint8Array())).toEqual([
			{ property: 'form', line: 1, says: 'the file does not open a day' },
		]);
		expect(checkDayFile(seal(cartDay().slice(1)))).not.toEqual([]);
	});

	test('a record of an unknown type or with a field missing is found', () => {
		const [opened] = cartDay();
		const line = (fields: Raw) =>
			lineOf({ seq: 2, run: 1, at: '2027-03-02T06:00:01.000Z', mono: 1000, ...fields });
		const says = (fields: Raw) =>
			checkDayFile(Buffer.concat([seal([opened ?? {}]), line(fields)])).map(f => f.says);
		expect(says({ type: 'gun.polished' })).toEqual(['the record type "gun.polished" is not known here']);
		expect(says({ type: 'gun.unknown' })).toEqual(['"why" of gun.unknown is undefined, wanted: text']);
		expect(says({ type: 'day.closed', at: 'noon' })).toEqual([
			'"at" is not an instant in UTC with milliseconds',
		]);
	});
});

describe('the order of a file', () => {
	const misshapen: Mutilation[] = [
		['a run goes back', day => changed(day, like('wait.began'), { run: 0 }), /run 0 follows run 1/],
		[
			'time goes back',
			day => changed(day, like('wait.began'), { at: '2027-03-02T05:00:00.000Z' }),
			/time goes back/,
		],
		[
			'the steady clock goes back',
			day => changed(day, like('wait.began'), { mono: 1 }),
			/steady clock goes back/,
		],
		['a letter is used again', day => reletter(day), /the letter A names a second batch/],
		[
			'two batches are mixed at once',
			day =>
				putAfter(day, like('batch.stepped'), 'batch.started', {
					...day[find(day, like('batch.started'), 1)],
					batch: 'D',
					type: 'batch.started',
				}),
			/batch D is begun while A is mixed/,
		],
		[
			'a batch is poured that was never begun',
			day => without(day, like('batch.started')),
			/batch A, which was never begun/,
		],
		[
			'a face ends that did not start',
			day => without(day, like('face.started')),
			/without having been started/,
		],
		[
			'a face does not end',
			day => without(day, like('face.ended')),
			/starts while counter lid\/top is not ended/,
		],
		['a break ends that did not begin', day => without(day, like('break.began')), /did not begin/],
		['a wait ends that did not begin', day => without(day, like('wait.began')), /did not begin/],
		[
			'the day goes on after it was closed',
			day => putAfter(day, like('wait.began'), 'day.closed', { job: 'cart', why: 'early' }),
			/after the day was closed/,
		],
		[
			'a check number comes twice',
			day => changed(day, like('check.began'), { check: 1 }, 1),
			/check 1 follows check 1/,
		],
		[
			'a face is not in the sheet',
			day => changed(day, like('face.started'), { face: 'counter lid/back' }),
			/no face counter lid\/back/,
		],
		[
			'the shares of a stretch overlap',
			day => {
				const share = day[find(day, like('face.ended', { face: lid }))];
				return changed(day, like('face.ended', { face: 'left door/edges' }), {
					began: share?.began,
					ended: share?.ended,
					estimated: true,
				});
			},
			/overlaps that of counter lid\/top/,
			{ stretch: true },
		],
		[
			'a share lies outside its stretch',
			day => changed(day, like('face.ended', { face: lid }), { began: '2027-03-02T05:00:00.000Z' }),
			/lies outside its stretch/,
			{ stretch: true },
		],
	];
	test.each(misshapen)('%s', (...mutilation) => expectFound('form', mutilation));

	test('a seq left out is found', () => {
		const day = cartDay();
		const bytes = Buffer.concat([...day.slice(0, 5), ...day.slice(6, 9)].map(lineOf));
		expect(checkDayFile(bytes).map(({ says }) => says)).toContain('seq 7 follows 5');
	});

	test('an inspection may follow the closing', () => {
		const day = cartDay();
		const seen = { type: 'fault.seen', fault: 'orange-peel', face: lid, coat: 2, seq: 0, run: 2, mono: 0 };
		expect(checkDayFile(seal([...day, { ...seen, at: '2027-03-03T07:00:00.000Z' }]))).toEqual([]);
	});

	test('the letters of earlier days are used up', () => {
		const says = checkDayFile(seal(cartDay()), [seal(cartDay())]).map(finding => finding.says);
		expect(says).toContain('the letter A names a second batch');
		expect(['A', 'Z', 'AA', 'AB'].map(placeOf)).toEqual([0, 25, 26, 27]);
	});
});

function reletter(day: Raw[]): Raw[] {
	const letters = (value: unknown) =>
		Array.isArray(value) ? value.map(one => (one === 'C' ? 'A' : one)) : value;
	return day.map(r => ({
		...r,
		...(r.batch === 'C' && { batch: 'A' }),
		...(r.cup !== undefined && { cup: letters(r.cup) }),
	}));
}

test('the checker shares no code with the program', () => {
	const files = readdirSync(import.meta.dirname).filter(name => name.endsWith('.ts'));
	expect(files.length).toBeGreaterThan(20);
	for (const name of files) {
		const text = readFileSync(`${import.meta.dirname}/${name}`, 'utf8');
		const sources = /(?:\bfrom\s+|^import\s+|\b(?:import|require)\(\s*)['"]([^'"\n]+)['"]/gm;
		const from = [...text.matchAll(sources)].map(([, source]) => source);
		const outside = from.filter(
			source => !/^(\.\/[a-z-]+\.ts|node:[a-z]+|vitest|fast-check)$/.test(source ?? ''),
		);
		expect({ name, outside }).toEqual({ name, outside: [] });
	}
});
