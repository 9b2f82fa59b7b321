import { expect, test } from 'vitest';
import { checkDayFile } from '../model/checker/check.ts';
import { stoolDay, stools } from './stools.ts';

/** A coat whose recoat window shut before it went on: it is told by itself, and what now is asked once. */

/** The second day, whose tab strings until the window of the last coat of its first side is shut. */
async function late() {
	const given = await stools();
	const first = stoolDay(given, 0);
	first.toEnd();
	const day = stoolDay(given, 1, first.records());
	day.toAsk('touch');
	day.painter.world.tab = 'strings';
	day.toState('missed');
	day.painter.world.tab = 'tacky';
	return { day, findings: () => checkDayFile(day.bytes(), [first.bytes()]) };
}

const third = (day: Awaited<ReturnType<typeof late>>['day']) =>
	day.ofType('face.ended').flatMap(({ face, coat }) => (coat === 3 ? [face] : []));

test('every face that missed its coat is named, and what its windows still allow, before the parts are turned', async () => {
	const { day } = await late();
	expect(day.line()).toMatchObject({
		ask: 'choose',
		say: 'Seat 1, 2 underside; legs 1, 2 tubes: coat 3 missed.',
		lines: [expect.stringMatching(/^Sand from 4 March \d\d:\d\d, then coat 3\.$/)],
		corners: { topLeft: { text: 'SAND LATER' } },
	});
	expect(day.ofType('stage.done').filter(({ stage }) => stage === 'turn over').length).toBe(2);
});

test('what now is asked once: answered, the day goes on with the other side', async () => {
	const { day, findings } = await late();
	const asked: string[] = [];
	day.pick('later');
	day.until(({ state }) => {
		asked.push(state);
		return state === 'closed';
	});
	expect(asked).toContain('prep.turn over');
	expect(asked).not.toContain('missed');
	expect(new Set(third(day))).toEqual(new Set(['seat 1/edges', 'seat 1/top', 'seat 2/edges', 'seat 2/top']));
	expect(findings()).toEqual([]);
});

test('with a reason the coat goes on all the same, on every face of them, and is marked by it', async () => {
	const { day, findings } = await late();
	for (const code of ['spray', 'data-sheet']) day.pick(code);
	day.until(({ state }) => state === 'prep.turn over');
	expect(new Set(third(day))).toEqual(
		new Set(['seat 1/underside', 'seat 2/underside', 'legs 1/tubes', 'legs 2/tubes']),
	);
	const marks = day.ofType('face.started').flatMap(({ coat, overrides }) => (coat === 3 ? [overrides] : []));
	expect(marks.every(rules => rules.includes('window'))).toBe(true);
	day.toEnd();
	expect(findings()).toEqual([]);
});

test('the day may be ended there, and the parts left as they lie', async () => {
	const { day, findings } = await late();
	day.pick('clean-up');
	day.toEnd();
	expect(day.ofType('stage.done').filter(({ stage }) => stage === 'turn over').length).toBe(2);
	expect(third(day)).toEqual([]);
	expect(findings()).toEqual([]);
});

test('where it may be sanded by now, that is what is offered', async () => {
	const given = await stools(text =>
		text
			.replaceAll('15 min to 2 h, wait: 2 h to 16 h, sand: from 16 h', '15 min to 2 h, sand: from 2 h')
			.replace('sand after: 24 h at 20 °C', 'sand after: 30 min at 20 °C'),
	);
	const first = stoolDay(given, 0);
	first.toEnd();
	const day = stoolDay(given, 1, first.records());
	day.toAsk('touch');
	day.painter.world.tab = 'strings';
	day.toState('missed');
	day.painter.world.tab = 'tacky';
	expect(day.line()).toMatchObject({
		lines: ['Sand it now, then coat 3.'],
		corners: { topLeft: { text: 'SAND FIRST' } },
	});
	day.pick('later');
	day.until(({ state }) => state === 'prep.sand');
	expect(day.line().say).toMatch(/4 faces/);
	day.toEnd();
	expect(checkDayFile(day.bytes(), [first.bytes()])).toEqual([]);
});
