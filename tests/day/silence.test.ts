import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

/** Whoever does not answer for minutes may have gone away: silence is a break. */

const broken = (day: ReturnType<typeof rehearsed>) => day.ofType('break.began').map(({ kind }) => kind);

test('three minutes of silence between two readings of a gun check are a break; it begins anew', () => {
	const day = rehearsed();
	day.toState('gunCheck.gauge');
	day.send('wait 170 s');
	expect(broken(day)).toEqual([]);
	day.send('wait 11 s');
	expect(broken(day)).toEqual(['silence']);
	expect(day.line()).toMatchObject({ ask: 'hold', say: expect.stringContaining('Nobody answered') });
	day.pick('back');
	const [, again] = day.ofType('check.began').filter(({ list }) => list === 'gun-check');
	expect(again?.size).toBe('full');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('what is turned between two readings is no reading: they lie no further apart for it', () => {
	const day = rehearsed();
	day.toState('gunCheck.gauge');
	day.send('number 300');
	day.until(({ state }) => state === 'gunCheck.gauge.differs');
	day.send('wait 100 s');
	const began = day.records().length;
	day.until(() => day.ofType('gun.set').length > 0 && day.records().length > began);
	expect(
		day
			.records()
			.slice(began)
			.map(({ type }) => type),
	).toEqual(['gun.set']);
	expect(broken(day)).toEqual([]);
	day.send('wait 81 s');
	expect(broken(day)).toEqual(['silence']);
});

test('answered every two minutes, a check that takes more than six in all is a break all the same', () => {
	const day = rehearsed();
	day.toState('gunCheck.mask');
	const began = Date.parse(day.line().at);
	for (let count = 0; count < 4 && broken(day).length === 0; count++) {
		day.send('wait 2 min');
		const next = day.painter.answer(day.line());
		if (next && broken(day).length === 0) day.send(next);
	}
	expect(broken(day)).toEqual(['silence']);
	const [end] = day.ofType('break.began');
	expect(Date.parse(end?.at ?? '') - began).toBeLessThanOrEqual(6 * 60_000 + 1000);
});

test('at ready three minutes without a key are a break, before the first start and between two passes', () => {
	const day = rehearsed();
	day.toState('ready');
	day.send('wait 3 min', 'wait 1 s');
	expect(broken(day)).toEqual(['silence']);
	day.pick('back');
	day.until(({ state }) => state === 'ready' && day.ofType('face.ended').length === 0);
	day.until(() => day.ofType('face.ended').length === 2);
	day.toState('ready');
	day.send('wait 150 s');
	expect(broken(day)).toEqual(['silence']);
	day.send('wait 31 s');
	expect(broken(day)).toEqual(['silence', 'silence']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('fifteen minutes in the list before spraying are a break, and the list is gone through again', () => {
	const day = rehearsed();
	day.toState('list.before-spraying.extractor');
	day.send('wait 14 min');
	expect(broken(day)).toEqual([]);
	day.send('wait 61 s');
	expect(broken(day)).toEqual(['silence']);
	day.pick('back');
	expect(day.line().state).toBe('list.before-spraying.mask');
});

test('a wait, mixing and a pass under way know no silence; a clean-up neither', () => {
	const day = rehearsed();
	day.until(({ state }) => state.startsWith('mix.can'));
	day.send('wait 20 min');
	expect(day.line().state).toMatch(/^mix\.can/);
	day.toState('wait');
	day.send('wait 10 min');
	expect(broken(day)).toEqual([]);
	day.until(({ state }) => state.startsWith('list.clean-up'));
	day.send('wait 1 h');
	expect(broken(day)).toEqual([]);
});

test('FINISHED so soon that four fifths of the film can hardly be on is asked about: all, part, nothing', () => {
	const day = rehearsed();
	const { face } = day.until(({ state }) => state === 'spraying');
	day.send('wait 10 s');
	day.pick('finished');
	expect(day.line()).toMatchObject({ state: 'spraying.soon', face });
	expect(day.ofType('face.ended')).toEqual([]);
	expect(Object.keys(day.line().corners).sort()).toEqual(['bottomLeft', 'bottomRight', 'topRight']);
	day.pick('none');
	expect(day.ofType('face.ended')).toMatchObject([{ face, extent: 'none' }]);
	day.until(({ state }) => state === 'spraying');
	day.send('wait 10 s');
	day.pick('finished');
	day.pick('part');
	expect(day.line().ask).toBe('hold');
	day.pick('back');
	expect(day.line()).toMatchObject({ ask: 'last-face', face });
	day.pick('all');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('FINISHED is asked about by what can have left the gun, and never for being long', () => {
	const askedAfter = (seconds: number) => {
		const day = rehearsed();
		day.until(({ state }) => state === 'spraying');
		day.send(`wait ${seconds} s`);
		day.pick('finished');
		return day.line().state === 'spraying.soon';
	};
	// 60 s planned, the flow known to a tenth: 0.8 ÷ e^(1.645 × 0.1) of them.
	expect([40, 41, 60, 100].map(askedAfter)).toEqual([true, false, false, false]);
});
