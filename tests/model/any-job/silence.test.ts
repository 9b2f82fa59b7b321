import { describe, expect, test } from 'vitest';
import { changed, like, shifted } from '../checker/draft.ts';
import { honestDay, longSheet } from './honest.ts';
import { putBefore, saysOf } from './spoiled.ts';

const day = await honestDay(longSheet, 4);

describe('19: silence is a break', () => {
	const gauge = like('reading.taken', { feature: 'gauge' });
	const start = like('face.started');

	test('three minutes between two readings of a check pass, a few seconds more are found', () => {
		expect(saysOf(19, shifted(day, gauge, 170))).toEqual([]);
		expect(saysOf(19, shifted(day, gauge, 180))).toEqual([
			'3.1 min without an answer in check 2, and no break',
		]);
	});

	test('three minutes from the last reading to the first start', () => {
		expect(saysOf(19, shifted(day, start, 160))).toEqual([]);
		expect(saysOf(19, shifted(day, start, 180))[0]).toMatch(/counter lid\/top starts 3\.\d min after line/);
	});

	test('three minutes from the end of a pass to the next start', () => {
		expect(saysOf(19, shifted(day, start, 160, 1))).toEqual([]);
		expect(saysOf(19, shifted(day, start, 180, 1))[0]).toMatch(
			/left door\/edges starts 3\.\d min after line/,
		);
	});

	test('six minutes over the whole check, none of its silences too long', () => {
		const slow = (seconds: number) => shifted(shifted(day, gauge, seconds), start, seconds);
		expect(saysOf(19, slow(160))).toEqual([]);
		expect(saysOf(19, slow(174))).toEqual([
			'counter lid/top starts 6.1 min after the first reading of its check',
		]);
	});

	test('a quarter of an hour in the list before spraying', () => {
		const fire = like('item.answered', { item: 'fire' });
		expect(saysOf(19, shifted(day, fire, 14 * 60))).toEqual([]);
		expect(saysOf(19, shifted(day, fire, 15 * 60))).toEqual([
			'15.1 min without an answer in check 1, and no break',
		]);
	});

	test('a break told of is none of silence, and a day that says no limits is of before there were any', () => {
		const silent = shifted(day, gauge, 600);
		const told = putBefore(silent, gauge, 'break.began', { kind: 'silence', by: 'program' });
		expect(saysOf(19, told)).toEqual([]);
		const settings = { settle_s: 10, checkAge_min: 20 };
		expect(saysOf(19, changed(silent, like('day.opened'), { settings }))).toEqual([]);
	});

	test('a shop that wants less silence is held to that', () => {
		const settings = { silence_min: 1, checkTakes_min: 6, listSilence_min: 15 };
		expect(saysOf(19, changed(shifted(day, gauge, 70), like('day.opened'), { settings }))).toEqual([
			'1.2 min without an answer in check 2, and no break',
		]);
	});
});
