import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const second = (items: readonly string[]) =>
	items.find(item => ['horns', 'pattern-height', 'flooded'].includes(item));

test('which second feature is asked rotates: none comes again before another that was not just instructed', () => {
	for (const seed of [0, 1, 2]) {
		const day = rehearsed({ seed });
		for (let count = 0; count < 9; count++) {
			day.until(({ ask }) => ask === 'go');
			day.send('hold');
			day.pick('back');
		}
		const asked = day
			.ofType('check.began')
			.filter(({ size }) => size === 'full')
			.map(({ items }) => second(items));
		const later = asked.slice(1);
		for (const [index, feature] of later.entries()) expect(feature).not.toBe(later[index + 1]);
		expect(new Set(later).size).toBe(3);
	}
});

test('no question about the gun holds a word that answers it', () => {
	const days = [0, 1, 2].map(seed => rehearsed({ seed }));
	const words = {
		horns: /level|upright|between/i,
		flooded: /even|ends|middle/i,
		pattern: /tall|wide|round/i,
	};
	const seen = new Set<string>();
	for (const day of days) {
		for (let count = 0; count < 9; count++) {
			day.until(({ ask, say, lines, do: instructions, open, gun }) => {
				const answer = words[ask as keyof typeof words];
				if (answer) {
					seen.add(ask);
					expect(JSON.stringify({ say, lines, instructions, open, gun })).not.toMatch(answer);
				}
				return ask === 'go';
			});
			day.send('hold');
			day.pick('back');
		}
	}
	expect([...seen].sort()).toEqual(Object.keys(words).sort());
});

test('supplied air alone is asked for of a material with isocyanate, and of no other', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the job has no topcoat');
	const told = (isocyanate: boolean) => {
		const day = rehearsed({ job: { ...job, materials: { topcoat: { ...topcoat, isocyanate } } } });
		day.toState('list.before-spraying.mask');
		day.pick('none');
		return day.line().lines[0];
	};
	expect(told(true)).toBe('Supplied air only for this material.');
	expect(told(false)).toBe('Breathing gear is wanted: supplied air or a filter mask.');
});

/** 29 CFR 1910.134(d)(3), from memory: a filter by what is in the air. It is worth what its cartridge is made for. */
test('a filter mask passes only where the sheet names its cartridge, which is said once the mask was read', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the job has no topcoat');
	const rest = { mixing: null, sanding: null };
	const dayWith = (spraying: NonNullable<typeof topcoat.breathing>['spraying']) => {
		const material = { ...topcoat, isocyanate: false, breathing: { ...rest, spraying } };
		const day = rehearsed({ job: { ...job, materials: { topcoat: material } } });
		day.painter.world.breathing = 'filter-mask';
		day.toState('list.before-spraying.mask');
		expect(JSON.stringify(day.line())).not.toContain('A2-P3');
		day.pick('filter-mask');
		return day;
	};
	const unnamed = dayWith(null).line();
	expect([unnamed.state, unnamed.lines[0]]).toEqual([
		'list.before-spraying.mask',
		'Its sheet names no filter cartridge: supplied air only.',
	]);
	const named = dayWith({ gear: 'filter-mask', cartridge: 'A2-P3' });
	expect(named.line().lines[0]).toBe('Cartridge: A2-P3, by its sheet.');
	named.toEnd();
	expect(named.ofType('reading.taken').filter(({ feature }) => feature === 'breathing')[0]).toMatchObject({
		value: 'filter-mask',
		wanted: ['supplied-air', 'filter-mask'],
		matched: true,
	});
	expect(named.findings()).toEqual([]);
});

/** A face stroked side to side with the gun upright, so that its fan stands tall; first in the day. */
function tallFirst() {
	const job = smallJob();
	const faces = job.faces.filter(({ name }) => name === 'flat').map(face => ({ ...face, after: [] }));
	return { ...job, faces };
}
/** The gun checked in full again and again, and what each check asks as its second feature. */
function checkedAgain(day: ReturnType<typeof rehearsed>, times: number) {
	for (let count = 0; count < times; count++) {
		day.until(({ ask }) => ask === 'go');
		day.send('hold');
		day.pick('back');
	}
	return day
		.ofType('check.began')
		.filter(({ size }) => size === 'full')
		.map(({ items }) => second(items) ?? 'none');
}

test('the flooded pattern is asked only of a fan that lies wide: it never has the cap turned', () => {
	for (const seed of [0, 1, 2]) {
		const tall = checkedAgain(rehearsed({ seed, job: tallFirst() }), 7);
		expect(tall).not.toContain('flooded');
		expect(new Set(tall.slice(1))).toEqual(new Set(['horns', 'pattern-height']));
		for (const [index, feature] of tall.slice(1).entries()) expect(feature).not.toBe(tall[index]);
		expect(checkedAgain(rehearsed({ seed }), 7)).toContain('flooded');
	}
});

test('the answer of the flooded pattern that passes stands in one corner and another, never in that of DONE', () => {
	const places = new Set<string>();
	for (const seed of [0, 1, 2, 3])
		checkedAgain(
			rehearsed({
				seed,
				watch: ({ ask, corners }) => {
					if (ask !== 'flooded') return;
					const [place] = Object.entries(corners).find(([, { code }]) => code === 'even') ?? [];
					places.add(place ?? '');
				},
			}),
			9,
		);
	expect([...places].sort()).toEqual(['bottomRight', 'topLeft', 'topRight']);
});

/** The first face stroked up and down with the gun laid over to the left: its fan lies wide, its horns level. */
function leaning(settings: Parameters<typeof rehearsed>[0] = {}) {
	const job = smallJob();
	const faces = job.faces.map((face, index) =>
		index > 0
			? face
			: { ...face, tilt: 90 as const, coats: face.coats.map(coat => ({ ...coat, horns: 'level' as const })) },
	);
	return rehearsed({ ...settings, job: { ...job, faces } });
}
const lay = 'Lay the gun over to the left.';

test('a gun that is laid over is told to be in the set screen and where its pattern is read', () => {
	const day = leaning();
	expect(day.toState('gunCheck.set').lines).toContain(lay);
	expect(day.toState('gunCheck.pattern').lines).toContain(lay);
	expect(leaning({ settings: { cards: true } }).toState('gunCheck.card.number').lines).toContain(lay);
	expect(rehearsed().toState('gunCheck.pattern').lines.join(' ')).not.toMatch(/lay/i);
});

test('the first face after one that the gun was laid over for is told to be sprayed with the gun upright, once', () => {
	const day = leaning();
	day.until(({ state }) => state === 'spraying');
	const told: string[] = [];
	for (let ready = 0; ready < 2; ready++) {
		day.until(({ state, face }) => state === 'ready' && !told.includes(face ?? ''));
		told.push(day.line().face ?? '', ...day.line().lines.filter(line => /upright again/.test(line)));
	}
	expect(told).toEqual(['left door/flat', 'Hold the gun upright again.', 'right door/flat']);
});

test('a gun held straight where it is to be laid over: the wrist is put right before the cap is turned', () => {
	const day = leaning();
	day.toState('gunCheck.pattern');
	day.pick('tall');
	expect(day.line()).toMatchObject({
		state: 'gunCheck.pattern.differs',
		say: lay,
		do: [{ code: 'lay-gun', to: 'left' }],
	});
	expect(day.line().lines[0]).toBe('Read TALL. Wanted WIDE.');
	day.pick('done');
	expect(day.line().state).toBe('gunCheck.pattern');
	day.pick('wide');
	expect(day.ofType('gun.checked').map(({ horns, tilt }) => [horns, tilt])).toEqual([['level', 90]]);
	expect(day.ofType('gun.set').map(({ horns }) => horns)).toEqual(['level', null, null]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('laid over and still another pattern: then the horns are turned, and the wrist is told again', () => {
	const day = leaning();
	day.painter.world.horns = 'upright';
	day.toState('gunCheck.pattern');
	day.pick('tall');
	day.pick('done');
	day.pick('tall');
	expect(day.line()).toMatchObject({ say: 'Air cap: turn the horns level.' });
	expect(day.line().lines).toContain(lay);
	day.pick('done');
	day.pick('wide');
	expect(day.ofType('gun.checked').map(({ horns }) => horns)).toEqual(['level']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('with the gun upright a pattern that differs turns the cap at once', () => {
	const day = rehearsed();
	day.toState('gunCheck.pattern');
	day.pick('tall');
	expect(day.line().say).toBe('Air cap: turn the horns upright.');
});

// Common practice, no source.
test.each([
	[
		'heavy-ends',
		'less-air',
		'Heavy ends: a little less air, or more paint.',
		/down a little, pattern knob in/,
	],
	[
		'heavy-middle',
		'more-air',
		'Heavy middle: a little more air, or thinner paint.',
		/up a little, or pattern knob open/,
	],
	[
		'one-sided',
		'half-turn',
		'Air cap: clean it, turn it half round, flood again.',
		/turns over: the cap\. It stays: the fluid tip/,
	],
])('a flooded pattern read as %s is put right by what makes it so: %s', (value, code, say, line) => {
	const day = rehearsed();
	day.toState('gunCheck.flooded');
	day.pick(value);
	expect(day.line()).toMatchObject({ state: 'gunCheck.flooded.differs', say, do: [{ code }] });
	expect(day.line().lines.join(' ')).toMatch(line);
	day.pick('done');
	expect(day.line().state).toBe('gunCheck.flooded');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

/** What a check has the painter set before its first reading. */
function setBefore(day: ReturnType<typeof rehearsed>): string[] {
	const codes: string[] = [];
	day.toState('gunCheck.set');
	day.until(({ state, do: todo }) => {
		if (state === 'gunCheck.set') codes.push(...todo.map(({ code }) => code));
		return state !== 'gunCheck.set';
	});
	return codes;
}

test('every setting of the gun is made anew at the first check of a day, and once it was flushed or taken apart', () => {
	const whole = ['set-horns', 'set-fan', 'set-fluid'];
	const day = rehearsed();
	expect(setBefore(day)).toEqual(whole);
	day.toState('ready');
	for (const code of ['trouble', 'gun-fault', 'one-sided', 'stayed']) day.pick(code);
	expect(setBefore(day)).toEqual(whole);
	day.toState('wait');
	day.pick('flush');
	day.pick('unread');
	expect(setBefore(day)).toEqual(whole);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
