import { describe, expect, test } from 'vitest';
import type { Job, Material, MixStep } from '../../src/job/job.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { trace } from '../../src/trace/trace.ts';
import { builtIn } from '../trace/built-in.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const toCan = (day: ReturnType<typeof rehearsed>, component: string) =>
	day.until(({ state, say }) => state === 'mix.can' && say.toLowerCase().startsWith(component));
const toPour = (day: ReturnType<typeof rehearsed>, component: string) =>
	day.until(({ state, say }) => state === 'mix.pour' && say.toLowerCase().startsWith(component));
const markOf = (day: ReturnType<typeof rehearsed>, component: string) =>
	day.ofType('day.opened')[0]?.cans.find(can => can.component === component)?.mark ?? '';

test('a break between base and hardener: the level is asked for first, and nothing is said of what comes next', () => {
	const day = rehearsed();
	toCan(day, 'hardener');
	day.send('hold', 'wait 3 min');
	day.pick('back');
	expect(day.line()).toMatchObject({ state: 'mix.found', ask: 'number', of: 'level_mL' });
	expect([day.line().say, ...day.line().lines].join(' ')).not.toMatch(/hardener|reducer|\d/);
	day.send('number 150');
	expect(day.line()).toMatchObject({ state: 'mix.can' });
	expect(day.line().say).toMatch(/^Hardener/);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('too much base works out the rest again for the larger batch', () => {
	const day = rehearsed();
	day.toState('mix.level.base');
	day.send('number 180');
	day.pick('holds');
	expect(day.line().lines.join(' ')).toContain('Over');
	expect(toPour(day, 'hardener').say).toContain('270 mL');
	day.pick('done');
	day.send('number 270');
	expect(toPour(day, 'reducer').say).toContain('360 mL');
	day.toEnd();
	expect(day.ofType('batch.ready')[0]?.volume_mL).toBeCloseTo(360, 0);
	expect(day.findings()).toEqual([]);
});

test('too much hardener: the base is topped up before the reducer goes in', () => {
	const day = rehearsed();
	day.toState('mix.level.hardener');
	day.send('number 240');
	day.pick('holds');
	expect(day.line().say).toMatch(/^Base/);
	expect(toPour(day, 'base').say).toContain('270 mL');
	day.toEnd();
	expect(
		day
			.ofType('batch.poured')
			.map(({ component }) => component)
			.slice(0, 4),
	).toEqual(['base', 'hardener', 'base', 'reducer']);
	expect(day.ofType('batch.ready')[0]?.volume_mL).toBeCloseTo(360, 0);
	expect(day.findings()).toEqual([]);
});

test('hardener in and the amount unknown: the batch is discarded, with the reason', () => {
	const day = rehearsed();
	day.toState('mix.level.hardener');
	day.send('hold');
	day.pick('back');
	day.pick('cannot-tell');
	expect(day.ofType('batch.discarded').map(({ batch, why }) => [batch, why])).toEqual([
		['A', 'contents unknown'],
	]);
	expect(day.line().lines.join(' ')).toContain('contents unknown');
	day.until(({ ask }) => ask === 'go');
	expect(day.ofType('face.started')).toEqual([]);
	day.toEnd();
	expect(day.ofType('batch.started').map(({ batch }) => batch)).toEqual(['A', 'B', 'C']);
	expect(day.findings()).toEqual([]);
});

test('only base in and the amount unknown: carry on with the base', () => {
	const day = rehearsed();
	day.toState('mix.level.base');
	day.send('hold');
	day.pick('back');
	day.pick('cannot-tell');
	expect(day.line().say).toMatch(/^Base/);
	day.toEnd();
	expect(day.ofType('batch.discarded')).toEqual([]);
	expect(day.findings()).toEqual([]);
});

test("the reducer's can in the hand where the hardener is due stops the mixing", () => {
	const day = rehearsed();
	toCan(day, 'hardener');
	day.pick(markOf(day, 'reducer'));
	expect(day.line()).toMatchObject({ state: 'mix.wrong-can', ask: 'do' });
	expect(day.send('number 225').accepted).toBe(false);
	day.pick('done');
	expect(day.line()).toMatchObject({ ask: 'can' });
	day.toEnd();
	const cans = day.ofType('reading.taken').filter(({ feature }) => feature === 'can');
	expect(cans.slice(1, 3).map(({ matched, attempt }) => [matched, attempt])).toEqual([
		[false, 1],
		[true, 2],
	]);
	expect(day.findings()).toEqual([]);
});

test('2:1:1 for 16 fl oz asks for the levels 8, 12 and 16', () => {
	// Common practice, no source: polyurethane for spraying 2:1:1, 8 fl oz base, 4 hardener, 4 reducer.
	const day = rehearsed({ settings: { units: 'us' } });
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 16');
	const levels = ['base', 'hardener', 'reducer'].map(
		component => /up to ([\d.]+ fl oz)/.exec(toPour(day, component).say)?.[1],
	);
	expect(levels).toEqual(['8 fl oz', '12 fl oz', '16 fl oz']);
});

test('a face is not started from a cup that runs dry in it; the refill from the same batch wants only a short check', () => {
	const job = rehearsed().job;
	const day = rehearsed({ job: { ...job, gun: { ...job.gun, cup_mL: 110 } } });
	day.toEnd();
	const sizes = day.ofType('gun.checked').map(({ size, face }) => `${size} ${face}`);
	expect(sizes.slice(0, 3)).toEqual([
		'full left door/edges',
		'short left door/flat',
		'short right door/flat',
	]);
	expect(day.ofType('batch.loaded').length).toBeGreaterThan(4);
	expect(day.findings()).toEqual([]);
});

test('a level is named in the unit it is keyed in, however large the batch', () => {
	const day = rehearsed({ settings: { units: 'us' } });
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 100');
	expect(toPour(day, 'base').say).toContain('50 fl oz');
});

test('which mark goes on which can is told before the first batch, and both marks when the wrong one is in the hand', () => {
	const day = rehearsed();
	const marks = ['base', 'hardener', 'reducer'].map(component => `${component} ${markOf(day, component)}`);
	expect(day.toState('mix.begin').lines[0]).toBe(`Tape the cans: ${marks.join(', ')}.`);
	toCan(day, 'hardener');
	expect(day.line().lines).toEqual([]);
	day.pick(markOf(day, 'reducer'));
	expect(day.line().lines.join(' ')).toContain(
		`Read ${markOf(day, 'reducer').toUpperCase()}. Wanted ${markOf(day, 'hardener').toUpperCase()}.`,
	);
});

test('how far to pour stands on the screen while it is poured, and is gone when the level is read', () => {
	const day = rehearsed();
	expect(day.toState('mix.pour').do).toEqual([{ code: 'pour', to: 150, unit: 'mL' }]);
	day.pick('done');
	expect(day.line().state).toBe('mix.level.base');
	expect(JSON.stringify({ ...day.line(), at: '', max: 0, corners: {} })).not.toMatch(/\b150\b/);
	day.send('number 100');
	expect(day.line().state).toBe('mix.pour');
	expect(day.line().lines[0]).toBe('Read 100 mL. Wanted 150 mL. Pour on.');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a batch that died half mixed while the machine slept is given up, and the pot is spoken of', () => {
	const day = rehearsed();
	toCan(day, 'reducer');
	day.send('sleep 9 h');
	day.pick('back');
	expect(day.ofType('batch.discarded').map(({ why }) => why)).toEqual(['past its life']);
	expect(day.line().lines[0]).toBe('Batch A: past its life. Discard it; heat builds in it.');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('straining and the flow cup take some of the mix: a lower level after a break there is no riddle', () => {
	const day = rehearsed();
	day.toState('mix.cup.seconds');
	day.send('hold');
	day.pick('back');
	day.send('number 280');
	expect(day.line().state).toBe('mix.cup.seconds');
	expect(day.ofType('batch.found').map(({ component, found }) => [component, found])).toEqual([
		['reducer', 'before'],
	]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('paint used as it is marks what is sprayed from it, and nothing sprayed from the batch after it', () => {
	const day = rehearsed();
	day.toState('mix.cup.seconds');
	day.send('number 25', 'number 21');
	day.pick('use-as-is');
	day.pick('owner');
	day.toAsk('spraying');
	day.send('wait 40 s', 'hold');
	day.pick('back');
	day.pick('all');
	day.send('wait 130 min');
	day.until(({ state, cup }) => state === 'spraying' && cup?.includes('B') === true);
	const marks = day.ofType('face.started').map(({ cup, overrides }) => [cup.join('+'), overrides.join()]);
	expect(new Set(marks.map(mark => mark.join(' ')))).toEqual(new Set(['A cup', 'B ']));
	expect(day.findings()).toEqual([]);
});

test('a batch whose seconds are off is used only under a reason', () => {
	const day = rehearsed();
	day.toState('mix.cup.seconds');
	day.send('number 60', 'number 21');
	day.pick('use-as-is');
	expect(day.ofType('override.given')).toEqual([]);
	day.pick('test-piece');
	expect(day.ofType('override.given').map(({ rule, reason }) => [rule, reason])).toEqual([
		['cup', 'tested on scrap'],
	]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test.each([1.7, 1.8, 2.1, 2.4])(
	'a small batch of %d fl oz: what the screen says to pour is right where it is read back',
	amount => {
		const day = rehearsed({ settings: { units: 'us' } });
		day.toState('mix.begin');
		day.pick('amount');
		day.send(`number ${amount}`);
		day.toState('ready');
		expect(new Set(day.ofType('batch.poured').map(({ found }) => found))).toEqual(new Set(['right']));
	},
);

test('paint thinned for one kind of coat is not sprayed as another: the cup is emptied and mixed anew', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	topcoat.coats.medium = { dry_um: 30, reducer_parts: 0.5 };
	for (const face of job.faces)
		face.coats = face.coats.map((coat, index) => ({ ...coat, kind: index === 0 ? 'medium' : 'full' }));
	const day = rehearsed({ job });
	day.toEnd();
	const letters = (count: number) =>
		new Set(day.ofType('face.started').flatMap(({ coat, cup }) => (coat === count ? cup : [])));
	const reducerOf = (letter: string) =>
		day.ofType('batch.started').find(({ batch }) => batch === letter)?.ratio.reducer;
	expect([...letters(1)].map(reducerOf)).toEqual([0.5]);
	expect([...letters(2)].map(reducerOf)).toEqual([1]);
	expect(day.ofType('cup.emptied').map(({ why }) => why)).toContain('other-mix');
	expect(day.findings()).toEqual([]);
});

test('a full cup beside a pot with paint in it is sprayed from: nothing is filled in, nothing emptied', () => {
	const job = smallJob();
	const faces = job.faces.map(face => ({
		...face,
		coats: face.coats.map(coat => ({ ...coat, volume_mL: 350 })),
	}));
	const day = rehearsed({ job: { ...job, faces } });
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 650');
	day.toState('load');
	day.pick('done');
	expect(day.line().state).toBe('mix.begin');
	const asked: string[] = [];
	day.until(({ state }) => {
		asked.push(state);
		return state === 'spraying';
	});
	expect(asked).not.toContain('load');
	expect(day.ofType('cup.emptied')).toEqual([]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

/** The small job mixed in another order. */
function mixedIn(order: MixStep[], more: Partial<Material> = {}): Job {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	return { ...job, materials: { topcoat: { ...topcoat, order, ...more } } };
}
const standing: MixStep[] = [
	...(['stir', 'base', 'hardener', 'stir', 'reducer', 'stir'] as const),
	...(['stand', 'stir', 'strain', 'cup'] as const),
];
/** What is poured and stirred of the first batch. */
const worked = (day: ReturnType<typeof rehearsed>) =>
	day
		.records()
		.flatMap(record =>
			record.type === 'batch.stepped' && record.batch === 'A'
				? [record.step]
				: record.type === 'batch.poured' && record.batch === 'A'
					? [record.component]
					: record.type === 'batch.stood' && record.batch === 'A'
						? ['stand']
						: [],
		);

test('the pot is stirred after the last pour and after standing, the base in its can before it: each in its own words', () => {
	const day = rehearsed({ job: mixedIn(standing, { standing_min: 15 }) });
	expect(day.toState('mix.stir').say).toBe('Stir the base in its can first.');
	expect(day.toState('mix.stir-pot')).toMatchObject({ say: 'Stir the pot: sides and bottom.' });
	day.toState('ready');
	expect(worked(day)).toEqual([
		...['stir', 'base', 'hardener', 'stir', 'reducer', 'stir'],
		...['stand', 'stir', 'strain'],
	]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('too much reducer: base and hardener are topped up, and the pot is stirred again, not the can', () => {
	const day = rehearsed({ job: mixedIn(standing, { standing_min: 15 }) });
	day.toState('mix.level.reducer');
	day.send('number 320');
	day.toState('ready');
	expect(worked(day)).toEqual([
		...['stir', 'base', 'hardener', 'stir', 'reducer'],
		...['base', 'hardener', 'stir', 'stand', 'stir', 'strain'],
	]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a break while the pot is stirred asks for its level, and the stirring comes again', () => {
	const day = rehearsed({ job: mixedIn(['stir', 'base', 'hardener', 'reducer', 'stir', 'strain', 'cup']) });
	day.toState('mix.stir-pot');
	day.send('hold', 'wait 2 min');
	day.pick('back');
	expect(day.line().state).toBe('mix.found');
	day.send('number 300');
	expect(day.line().state).toBe('mix.stir-pot');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a day begun in the old order is read as it was written: its pot is not asked for', () => {
	const day = rehearsed({ job: mixedIn(['stir', 'base', 'hardener', 'reducer', 'strain', 'cup']) });
	day.toState('ready');
	expect(worked(day)).toEqual(['stir', 'base', 'hardener', 'reducer', 'strain']);
	day.send('kill');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

// Common practice, no source: paint runs faster thin or warm, slower thick or cold.
test.each([
	[10, 30, ['Too thin or warm: let it cool to 25 °C, time again.', 'Too much reducer in it: discard it.']],
	[10, 20, ['Too thin: time again.', 'Too much reducer in it: discard it.']],
	[30, 15, ['Too thick or cold: bring it to 25 °C, time again.', 'Reducer only as the data sheet allows.']],
	[30, 25, ['Too thick: stir it, time again.', 'Reducer only as the data sheet allows.']],
])('a flow cup of %d s at %d °C, where 14 to 18 are wanted, says what helps', (seconds, tempC, lines) => {
	const day = rehearsed();
	day.toState('mix.cup.seconds');
	day.send(`number ${seconds}`, `number ${tempC}`);
	expect(day.line()).toMatchObject({ state: 'mix.cup.off', lines });
});

test('a cup that still holds some of A and is filled from B is taped A+B, as it is read back', () => {
	const day = rehearsed();
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 120');
	expect(day.toState('load').lines).toEqual([
		'Tape the letter on the cup.',
		'Hang a strip of tape by the parts: spray it too.',
	]);
	day.until(({ state }) => state === 'load' && day.ofType('batch.ready').length === 2);
	expect(day.line().lines).toEqual(['Tape A+B on the cup.']);
	day.until(() =>
		day.ofType('reading.taken').some(({ feature, value }) => feature === 'batch' && value === 'A+B'),
	);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

describe('the temperature of the paint in its flow cup', () => {
	/** The small job, its paint timed at 16 s. */
	function timedAt(tempC: number, change: Partial<Material>) {
		const job = smallJob();
		const { topcoat } = job.materials;
		if (!topcoat) throw new Error('the small job has one material');
		const day = rehearsed({ job: { ...job, materials: { topcoat: { ...topcoat, ...change } } } });
		day.toState('mix.cup.seconds');
		day.send('number 16', `number ${tempC}`);
		return day;
	}
	const cup = { kind: 'ford4', seconds: [14, 18] as [number, number], at_C: 20 };
	const limits = {
		...smallJob().materials.topcoat?.limits,
		air_C: [10, 35] as [number, number],
		humidity_max: 0.85,
		margin_C: 3,
	};

	test.each([
		[16, {}, null],
		[16, { cup }, 'Paint: 16 °C. Its seconds are for 20 °C.'],
		[17, { cup }, null],
		[23, { cup }, null],
		[24, { cup }, 'Paint: 24 °C. Its seconds are for 20 °C.'],
		[9, {}, 'Paint: 9 °C. 10 °C to 35 °C are wanted.'],
		[
			12,
			{ limits: { ...limits, paint_C: [15, 30] as [number, number] } },
			'Paint: 12 °C. 15 °C to 30 °C are wanted.',
		],
		[
			31,
			{ cup, limits: { ...limits, paint_C: [15, 30] as [number, number] } },
			'Paint: 31 °C. 15 °C to 30 °C are wanted.',
		],
		[37, { limits: { ...limits, paint_C: [15, 40] as [number, number] } }, null],
	])('right seconds at %i °C', (tempC, change, says) => {
		const day = timedAt(tempC, change);
		expect(day.ofType('cup.timed').at(-1)?.fits).toBe(says === null);
		if (says !== null) expect(day.line()).toMatchObject({ state: 'mix.cup.off', say: says });
	});

	test('paint brought to it is timed again, and goes on; used as it is, a reason stands in the day and in the trace', () => {
		const again = timedAt(15, { cup });
		again.pick('time-again');
		again.send('number 17', 'number 19');
		expect(again.line().state).not.toContain('mix.cup');
		again.toEnd();
		expect(again.findings()).toEqual([]);
		const used = timedAt(15, { cup });
		for (const code of ['use-as-is', 'data-sheet']) used.pick(code);
		used.toEnd();
		expect(used.ofType('override.given')).toMatchObject([{ rule: 'cup', batch: 'A' }]);
		const found = trace(
			{ days: [used.records()], fault: 'orange-peel', face: 'left door/flat', coat: 1 },
			builtIn,
		);
		expect(JSON.stringify(found)).toContain('its paint was 15 °C as the cup was timed');
	});
});

test('a pot that does not fill the flow cup is not timed, and nothing says that its seconds were read', () => {
	const day = rehearsed();
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 96');
	const asked = day.until(({ state }) => state === 'mix.cup.seconds' || state === 'load');
	expect(asked.state).toBe('load');
	expect(day.ofType('cup.timed')).toMatchObject([{ batch: 'A', cup: 'none' }]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
	const { batches } = tablesOf(day.records());
	expect(batches.find(({ batch }) => batch === 'A')?.cup).toBeNull();
	const { missing } = trace(
		{ days: [day.records()], fault: 'run', face: 'left door/edges', coat: 1 },
		builtIn,
	);
	expect(missing.join()).toMatch(/seconds of batch A were not read/);
});

test('a pot that just fills the flow cup is timed', () => {
	const day = rehearsed();
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 100');
	expect(day.until(({ state }) => state === 'mix.cup.seconds' || state === 'load').state).toBe(
		'mix.cup.seconds',
	);
});

test('another amount stands in no row with MIX, which would be read on into it', () => {
	const day = rehearsed();
	expect(day.toState('mix.begin').corners).toEqual({
		topLeft: { code: 'mix', text: 'MIX' },
		bottomRight: { code: 'amount', text: 'LESS / MORE' },
	});
});

test('a pot that has stood is stirred and strained in one go: one key, and each step its record', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	const order: MixStep[] = [...topcoat.order.slice(0, -2), 'stand', 'stir', 'strain', 'cup'];
	const day = rehearsed({ job: { ...job, materials: { topcoat: { ...topcoat, order, standing_min: 15 } } } });
	const stood = day.toState('mix.stood');
	expect(stood.lines).toEqual([
		'Stir the pot: sides and bottom.',
		'Batch: strain it into its taped pot.',
		'Strainer: 190 µm.',
	]);
	expect(stood.corners.topLeft?.text).toBe('STRAINED');
	day.send('top-left');
	expect(day.line().events).toEqual(['batch.stood', 'batch.stepped', 'batch.stepped']);
	expect(day.line().state).toBe('mix.cup.seconds');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
