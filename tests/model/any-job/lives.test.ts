import { describe, expect, test } from 'vitest';
import { changed, like } from '../checker/draft.ts';
import { honestDay, longSheet } from './honest.ts';
import { saysOf } from './spoiled.ts';

const day = await honestDay(longSheet, 4);

describe('22: no batch whose standing leaves no pass in its life', () => {
	test('in a shop at 60 °C, or with a standing of four hours; at 21 °C none', () => {
		expect(saysOf(22, changed(day, like('air.read'), { airC: 62 }))).toEqual([
			'batch A is mixed in vain: it stands 15 min and lives 0.0 min at 62 °C',
		]);
		const [opened, ...rest] = day;
		const text = JSON.stringify(opened).replace('"standing_min":15', '"standing_min":240');
		expect(saysOf(22, [JSON.parse(text), ...rest])[0]).toMatch(
			/it stands 240 min and lives 240\.0 min at 21/,
		);
		const almost = JSON.stringify(opened).replace('"standing_min":15', '"standing_min":239');
		expect(saysOf(22, [JSON.parse(almost), ...rest])).toEqual([]);
	});
});
