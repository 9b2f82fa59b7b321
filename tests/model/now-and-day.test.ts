import { expect, test } from 'vitest';
import { type FaceNow, nowAfter } from '../../src/day/now.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { sheets, standardLists } from './by-chance/sheets.ts';
import { agreedOn, differ } from './now-and-day.ts';

/** `NOW_DAYS=2000` plays as many as `npm run prove`. */
const { NOW_DAYS = '40' } = process.env;

test('`now` and the day agree on every face, at every moment of days by chance, later on and between two days', async () => {
	const days = { jobs: sheets(), lists: await standardLists() };
	const { says, ...sum } = agreedOn(days, 60, Number(NOW_DAYS));
	expect(says).toEqual([]);
	expect(sum.asked).toBeGreaterThan(15_000);
	expect(sum.taken).toBeGreaterThan(400);
	expect(sum.timers).toBeGreaterThan(3000);
	expect(sum.later).toBeGreaterThan(200);
	expect(sum.between).toBeGreaterThan(3);
}, 3_600_000);

test('a face told otherwise than its stops is found out, whatever is told of it', () => {
	const day = rehearsed();
	const { face } = day.until(({ state, coat }) => state === 'wait' && coat === 2);
	const at = Date.parse(day.line().at);
	const faces = nowAfter(day.records(), at);
	expect(differ(faces, day.state(), at)).toEqual([]);
	const others: FaceNow['next'][] = [
		{ may: 'spray', coat: 2, material: 'topcoat', until: null },
		{ may: 'prep', step: 'wipe', from: at, for: 2 },
		{ may: 'wait', coat: 2, from: at, until: null },
		{ may: 'sand', coat: 2, step: 'sand', from: at },
		{ may: 'begun', coat: 2 },
		{ may: 'nothing' },
		{ may: 'rework', step: 'sand', from: at },
		{ may: 'beside' },
	];
	for (const next of others) {
		const told = faces.map(one => (one.face === face ? { ...one, next } : one));
		expect(differ(told, day.state(), at), next.may).toHaveLength(1);
	}
});
