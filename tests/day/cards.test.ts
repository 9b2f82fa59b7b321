import { expect, test } from 'vitest';
import { cardOf, coveredBy } from '../../src/trade/pattern-cards.ts';
import { rehearsed } from './rehearsed.ts';

const withCards = () => rehearsed({ settings: { cards: true } });
const codes = (day: ReturnType<typeof rehearsed>) =>
	Object.values(day.line().corners).map(corner => corner.code);

test('with cards, a day is sprayed on readings of letters alone, and the checker passes it', () => {
	const day = withCards();
	day.toEnd();
	const features = new Set(day.ofType('reading.taken').map(({ feature }) => feature));
	expect(features.has('card')).toBe(true);
	expect(features.has('pattern')).toBe(false);
	expect(day.ofType('face.started').length).toBe(6);
	expect(day.findings()).toEqual([]);
});

test('the check ends with a card: its number, then four answers, and the record keeps its letters', () => {
	const day = withCards();
	expect(day.toState('gunCheck.card.number')).toMatchObject({ ask: 'number', of: 'card', min: 1, max: 24 });
	expect(day.send('number 5').ask).toBe('card');
	const { tall, wide } = coveredBy(cardOf(5) ?? expect.fail('no card 5'));
	expect(codes(day)).toHaveLength(4);
	expect(codes(day)).toEqual(expect.arrayContaining([tall, wide, 'bad']));
	day.pick(wide);
	expect(day.ofType('reading.taken').at(-1)).toMatchObject({
		feature: 'card',
		value: wide,
		wanted: wide,
		matched: true,
		card: { tall, wide },
	});
});

test('letters of the other fan stop everything, and a fresh card is asked for', () => {
	const day = withCards();
	day.toState('gunCheck.card.number');
	day.send('number 5');
	day.pick(coveredBy(cardOf(5) ?? expect.fail('no card 5')).tall);
	expect(day.line()).toMatchObject({ ask: 'do', do: [{ code: 'set-horns', to: 'upright' }] });
	day.pick('done');
	expect(day.line().state).toBe('gunCheck.card.number');
	expect(day.send('number 5')).toMatchObject({ state: 'gunCheck.card.number', accepted: true });
	expect(day.line().lines.join(' ')).toContain('fresh');
	expect(day.send('number 6').ask).toBe('card');
});

test('none of these: knob and cap are looked at, and nothing is passed', () => {
	const day = withCards();
	day.toState('gunCheck.card.number');
	day.send('number 9');
	day.pick('bad');
	expect(day.line().do.map(({ code }) => code)).toEqual(['open-pattern-knob', 'clean-cap']);
	expect(day.line().lines[0]).toContain('Wanted');
	expect(day.ofType('gun.checked')).toEqual([]);
});

test.each(['number 0', 'number 25', 'number 3.5'])('%s is no card, and changes nothing', given => {
	const day = withCards();
	day.toState('gunCheck.card.number');
	const before = day.records().length;
	expect(day.send(given).state).toBe('gunCheck.card.number');
	expect(day.records().length).toBe(before);
});

test('the letters that fit stand in every corner in turn', () => {
	const corners = new Set<string>();
	for (let card = 1; card <= 24; card++) {
		const day = withCards();
		day.toState('gunCheck.card.number');
		day.send(`number ${card}`);
		const { wide } = coveredBy(cardOf(card) ?? expect.fail(`no card ${card}`));
		for (const [corner, { code }] of Object.entries(day.line().corners))
			if (code === wide) corners.add(corner);
	}
	expect(corners.size).toBe(4);
});

test('neither fan is told by any word on the way to the letters', () => {
	const day = withCards();
	const said: string[] = [];
	day.toState('gunCheck.card.number');
	said.push(day.line().say, ...day.line().lines);
	day.send('number 5');
	said.push(day.line().say, ...day.line().lines);
	expect(said.join(' ')).not.toMatch(/tall|wide|level|upright (horns|cap)/i);
});
