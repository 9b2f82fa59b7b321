import { expect, test } from 'vitest';
import type { DayEvent } from '../../src/day/records.ts';
import { asks, beginInspection, hear, type Inspection, inHand } from '../../src/trace/inspect.ts';
import { trace } from '../../src/trace/trace.ts';
import { builtIn } from './built-in.ts';
import { makeCase } from './generator/case.ts';
import { tuning } from './generator/seeds.ts';

const made = makeCase(tuning.from);
const day = made.days.at(-1) ?? [];

function said(inspection: Inspection, ...lines: string[]) {
	let now = inspection;
	const events = lines.flatMap(line => {
		const heard = hear(now, line, builtIn);
		now = heard.inspection;
		return heard.events;
	});
	return { now, events };
}

test('the walk meets every face that was sprayed once, and ends', () => {
	let now = beginInspection(day);
	const met: string[] = [];
	while (!now.over) {
		met.push(inHand(now)?.face ?? '');
		now = hear(now, 'cleared', builtIn).inspection;
	}
	const sprayed = new Set(day.flatMap(record => (record.type === 'face.started' ? [record.face] : [])));
	expect(new Set(met)).toEqual(sprayed);
	expect(met).toHaveLength(sprayed.size);
	expect(asks(now)).toBe('Every face is judged.');
});

test('a fault that starts a trace says how to ask; an insect says that it starts none', () => {
	const begun = beginInspection(day);
	expect(hear(begun, 'fault run', builtIn).say).toContain('fanwise trace --fault run --face');
	expect(hear(begun, 'fault insect', builtIn).say).toContain('starts no trace');
});

test('rework and accepted want a reason, a film reading wants its kind and unit', () => {
	const begun = beginInspection(day);
	for (const line of [
		'rework',
		'accepted',
		'film 38',
		'film dry 38',
		'film dry -2 um',
		'photo',
		'fault run coat 99',
		'dance',
	])
		expect(hear(begun, line, builtIn)).toMatchObject({ accepted: false, events: [], inspection: begun });
	expect(said(begun, 'film wet 120 um by comb on scrap').events).toMatchObject([
		{ type: 'film.read', wet_um: 120, by: 'comb on scrap' },
	]);
	expect(said(begun, 'film dry 2 mil').events[0]).toMatchObject({ dry_um: 50.8, by: 'gauge' });
});

test('faces can be gone back to and named', () => {
	const begun = beginInspection(day);
	const second = begun.spots[1];
	expect(inHand(said(begun, 'next', 'back').now)).toEqual(begun.spots[0]);
	expect(inHand(said(begun, `face ${second?.face}`).now)).toEqual(second);
	expect(hear(begun, 'face canopy', builtIn).accepted).toBe(false);
});

test('verdicts lead through the faces a trace exposes, and none of them drops out', () => {
	for (let seed = tuning.from; seed < tuning.from + 10; seed++) {
		const one = makeCase(seed);
		const found = trace(one, builtIn);
		const bad = { face: one.face, coat: one.coat };
		const asked: number[] = [];
		const search = (events: readonly DayEvent[]) => {
			asked.push(events.length);
			return found.inspect;
		};
		let now = beginInspection(one.days.at(-1) ?? [], [...found.inspect, bad], search);
		const judged: string[] = [];
		for (let step = 0; step < 500 && !now.over; step++) {
			const heard = hear(now, judged.length % 3 === 0 ? 'rework it shows here too' : 'cleared', builtIn);
			judged.push(
				...heard.events.flatMap(event =>
					event.type === 'face.judged' ? [`${event.face}#${event.coat}`] : [],
				),
			);
			now = heard.inspection;
		}
		expect(new Set(judged).size).toBe(judged.length);
		for (const { face: id } of found.faces) expect(judged.some(spot => spot.startsWith(`${id}#`))).toBe(true);
		// Asked again after each verdict, with all that was found till then.
		expect(asked).toHaveLength(judged.length);
		expect(asked).toEqual(asked.toSorted((a, b) => a - b));
	}
});
