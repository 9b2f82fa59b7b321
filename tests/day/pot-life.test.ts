import { describe, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const toPour = (day: ReturnType<typeof rehearsed>, component: string) =>
	day.until(({ state, say }) => state === 'mix.pour' && say.toLowerCase().startsWith(component));
/** Instants of the can taken in the hand, oldest first. */
const handOf = (day: ReturnType<typeof rehearsed>, component: string) => {
	const mark = day.ofType('day.opened')[0]?.cans.find(can => can.component === component)?.mark;
	return day
		.ofType('reading.taken')
		.filter(({ feature, value, matched }) => feature === 'can' && value === mark && matched)
		.map(({ at }) => Date.parse(at));
};
const hour_ms = 3_600_000;

/** The batch lives for two hours. */
const endOfLife = (day: ReturnType<typeof rehearsed>) => {
	const due = day.line().timers.find(({ code }) => code === 'pot-life')?.due;
	return due === undefined ? Number.NaN : Date.parse(due);
};

test.each([
	['the level is read long after it was poured', ['wait 50 min', 'done']],
	['a break comes between the pour and its reading', ['hold', 'wait 50 min', 'back']],
])('pot life runs from the can in the hand, not from the reading: %s', (_, keys) => {
	const day = rehearsed();
	const level = toPour(day, 'hardener').do[0]?.to;
	for (const key of keys) key.startsWith('wait') || key === 'hold' ? day.send(key) : day.pick(key);
	day.send(`number ${level}`);
	day.toState('ready');
	expect(endOfLife(day)).toBe((handOf(day, 'hardener')[0] ?? 0) + 2 * hour_ms);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('hardener that went in two hours before its level was read is dead when it is read', () => {
	const day = rehearsed();
	const level = toPour(day, 'hardener').do[0]?.to;
	day.send('hold', 'wait 121 min');
	day.pick('back');
	day.send(`number ${level}`);
	expect(day.ofType('batch.discarded').map(({ why }) => why)).toEqual(['past its life']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a can put down unpoured, as the level shows, does not age the batch', () => {
	const day = rehearsed();
	toPour(day, 'hardener');
	day.send('hold', 'wait 90 min');
	day.pick('back');
	day.send('number 150');
	day.toState('ready');
	const [first, second] = handOf(day, 'hardener');
	expect((second ?? 0) - (first ?? 0)).toBeGreaterThan(hour_ms);
	expect(endOfLife(day)).toBe((second ?? 0) + 2 * hour_ms);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

/** Every face wants most of what is mixed at once, and paint lives for an hour. */
function thirsty(): Job {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	return {
		...job,
		faces: job.faces.map(face => ({ ...face, coats: face.coats.map(coat => ({ ...coat, volume_mL: 250 })) })),
		materials: { topcoat: { ...topcoat, potLife: { at_C: 21, hours: 1 } } },
	};
}

/** Batch A is sprayed from for one face; B is mixed so many minutes after it, and A is short of the next face. */
function twoBatches(minutes: number, amount: number) {
	const day = rehearsed({ job: thirsty() });
	const mix = (millilitres: number) => {
		day.toState('mix.begin');
		day.pick('amount');
		day.send(`number ${millilitres}`);
	};
	mix(300);
	day.toState('mix.begin');
	day.send(`wait ${minutes} min`);
	mix(amount);
	day.until(line => line.state === 'spraying');
	day.send('wait 60 s');
	day.pick('finished');
	return day;
}
const potOf = (day: ReturnType<typeof rehearsed>, letter: string) =>
	day.state().book.batches.get(letter)?.pot_mL ?? 0;
const discarded = (day: ReturnType<typeof rehearsed>) =>
	day.ofType('batch.discarded').map(({ batch, why }) => `${batch} ${why}`);

test('when the oldest batch in the cup dies, the younger ones in it live on in their pots', () => {
	const day = twoBatches(30, 1500);
	day.toState('ready');
	expect(day.state().machine.context.cup).toEqual(['A', 'B']);
	const left = potOf(day, 'B');
	day.send('wait 30 min');
	day.toState('empty');
	day.pick('done');
	expect(discarded(day)).toEqual(['A past its life']);
	expect(potOf(day, 'B')).toBe(left);
	day.toState('ready');
	expect(day.state().machine.context.cup).toEqual(['B']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('fresh paint is not poured onto paint that dies before the coat is done: the cup is emptied first', () => {
	const day = twoBatches(55, 600);
	expect(day.toState('empty').say).toBe('Cup: its batch dies before this coat is done. Empty, flush.');
	day.pick('done');
	expect(discarded(day)).toEqual([]);
	expect(day.ofType('cup.emptied').at(-1)).toMatchObject({ why: 'short-lived' });
	day.toState('ready');
	expect(day.state().machine.context.cup).not.toContain('A');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('paint that has enough life left is topped up', () => {
	const day = twoBatches(20, 600);
	day.toState('ready');
	expect(day.state().machine.context.cup).toEqual(['A', 'B']);
});

test('a cup emptied of dead paint leaves no pot to discard', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 2 h');
	day.pick('back');
	day.toState('empty');
	expect(potOf(day, 'A')).toBe(0);
	day.pick('done');
	expect(discarded(day)).toEqual(['A past its life']);
	expect(day.line().lines.join(' ')).not.toContain('Discard');
});

test('an emptied batch that dies later was used up, not thrown away', () => {
	const day = twoBatches(55, 600);
	day.toState('empty');
	day.pick('done');
	day.send('hold', 'wait 10 min');
	day.pick('back');
	day.toEnd();
	expect(discarded(day)).not.toContain('A past its life');
	expect(day.findings()).toEqual([]);
});

describe('a batch that could not stand and be sprayed within its life', () => {
	const standing = (standing_min: number, hours: number) => {
		const job = smallJob();
		const { topcoat } = job.materials;
		if (!topcoat) throw new Error('no topcoat');
		const order = ['stir', 'base', 'hardener', 'reducer', 'stir', 'stand', 'strain', 'cup'] as const;
		const potLife = { at_C: 21, hours };
		return {
			...job,
			materials: { topcoat: { ...topcoat, standing_min, potLife, order: [...order] } },
		};
	};

	test('is not offered: what it lives and what it needs is said, and one that is read cooler is', () => {
		const day = rehearsed({ job: standing(15, 0.31) });
		day.painter.world.air.C = 24;
		day.until(({ state }) => state.startsWith('mix.'));
		expect(day.line()).toMatchObject({ state: 'mix.too-short-lived' });
		expect(day.line().say).toMatch(/lives 13 min here; 18 min are needed/);
		expect(Object.values(day.line().corners).map(({ code }) => code)).toEqual(['read-again', 'clean-up']);
		day.painter.world.air.C = 15;
		day.pick('read-again');
		day.until(({ state }) => state.startsWith('mix.'));
		expect(day.line().state).toBe('mix.begin');
	});

	test('ends the day by its clean-up, with no batch begun', () => {
		const day = rehearsed({ job: standing(15, 0.25) });
		day.until(({ state }) => state === 'mix.too-short-lived');
		day.pick('clean-up');
		day.toEnd();
		expect(day.ofType('batch.started')).toEqual([]);
		expect(day.findings()).toEqual([]);
	});
});

test('no pot is given up for a slip in the air that can still be read again', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const slipped = (again: (day: ReturnType<typeof rehearsed>) => void) => {
		const day = rehearsed({ job });
		day.until(({ state, coat }) => state === 'wait' && coat === 2);
		day.pick('mix');
		day.until(({ state }) => state === 'wait' || state === 'ready');
		day.send('hold', 'wait 40 min');
		Object.assign(day.painter.world.air, { C: 38, surface_C: 38 });
		day.pick('back');
		day.until(() => day.ofType('air.read').length === 2);
		expect(day.ofType('batch.discarded')).toEqual([]);
		again(day);
		day.toEnd();
		expect(day.findings()).toEqual([]);
		return day.ofType('batch.discarded').filter(({ why }) => why === 'past its life');
	};
	const readAgain = slipped(day => {
		Object.assign(day.painter.world.air, { C: 21, surface_C: 21 });
		day.toState('air.no');
		day.pick('read-again');
	});
	expect(readAgain).toEqual([]);
	const goneOn = slipped(day => {
		day.toState('air.no');
		for (const code of ['go-on', 'test-piece']) day.pick(code);
	});
	expect(goneOn.length).toBeGreaterThan(0);
});
