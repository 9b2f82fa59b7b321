import { expect, test } from 'vitest';
import { loadLists } from '../../src/job/lists.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const spraying = (face: string) => (line: { state: string; face: string | null }) =>
	line.state === 'spraying' && line.face === face;

test('during a flash wait the fan is left turned and a visitor comes: coat 2 waits for a pattern reading that fits', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 12 min');
	expect(day.line().state).toBe('hold');
	day.pick('back');
	day.until(({ state }) => state === 'gunCheck.set');
	day.pick('done'); // says done, and leaves the cap as it was
	day.painter.world.horns = 'level';
	const asked = day.toState('gunCheck.pattern');
	expect(asked.coat).toBe(2);
	expect(JSON.stringify(asked.lines)).not.toMatch(/wide|tall/i);
	day.pick('tall');
	expect(day.line()).toMatchObject({ ask: 'do', do: [{ code: 'set-horns', to: 'upright' }] });
	expect(day.line().lines.join(' ')).toContain('Read TALL. Wanted WIDE.');
	expect(day.line().lines.join(' ')).toMatch(
		/about \d+ times the film on \d lines: it (runs|stripes)\. \w+( third)? of the face stays bare/,
	);
	day.pick('done');
	expect(day.line().state).toBe('gunCheck.pattern');
	day.pick('wide');
	day.until(({ ask }) => ask === 'go');
	const readings = day
		.ofType('reading.taken')
		.filter(({ feature, coat }) => feature === 'pattern' && coat === 2);
	expect(readings.map(({ value, matched, attempt }) => [value, matched, attempt])).toEqual([
		['tall', false, 1],
		['wide', true, 2],
	]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a face broken off half-way goes on one stroke back inside its wet edge, and is never offered from its start', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 20 s', 'hold', 'wait 15 s');
	day.pick('back');
	expect(day.line()).toMatchObject({ ask: 'last-face', face: 'left door/flat', coat: 1 });
	day.pick('part');
	day.send('number 3');
	const ready = day.toAsk('go');
	expect(ready.face).toBe('left door/flat');
	expect(ready.lines.join(' ')).toContain('from stroke 2');
	day.toEnd();
	expect(
		day
			.ofType('face.started')
			.filter(({ face }) => face === 'left door/flat')
			.map(({ coat, from }) => [coat, from]),
	).toEqual([
		[1, 'start'],
		[1, 'part'],
		[2, 'start'],
	]);
	expect(day.findings()).toEqual([]);
});

test('outside its wet edge the face waits for its flash, or the part is set aside, as the painter chooses', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 20 s', 'hold', 'wait 10 min');
	day.pick('back');
	day.pick('part');
	day.send('number 3');
	const edge = day.toState('edge');
	expect(Object.values(edge.corners).map(({ code }) => code)).toEqual(['wait-flash', 'set-aside']);
	day.pick('wait-flash');
	day.toEnd();
	const starts = day
		.ofType('face.started')
		.filter(({ face, coat }) => face === 'left door/flat' && coat === 1);
	expect(starts.map(({ from }) => from)).toEqual(['start', 'part']);
	expect(Date.parse(starts[1]?.at ?? '') - Date.parse(starts[0]?.at ?? '')).toBeGreaterThan(45 * 60_000);
	expect(day.findings()).toEqual([]);
});

test('what was all on is never offered again in that coat; nothing starts it', () => {
	for (const [extent, offered] of [
		['all', 'right door/flat'],
		['none', 'left door/flat'],
	] as const) {
		const day = rehearsed();
		day.until(spraying('left door/flat'));
		day.send('wait 20 s', 'hold');
		day.pick('back');
		day.pick(extent);
		expect(day.toAsk('go').face).toBe(offered);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	}
});

test('a full check after a wait takes at most 7 items, a planned turn between two faces 2', () => {
	const day = rehearsed();
	day.toEnd();
	const checks = day.ofType('check.began').filter(({ list }) => list === 'gun-check');
	for (const { size, items } of checks) expect(items.length).toBeLessThanOrEqual(size === 'full' ? 6 : 2);
	expect(checks.some(({ size }) => size === 'short')).toBe(true);
	expect(checks.filter(({ size }) => size === 'short').map(({ items }) => items)[0]).toEqual([
		'batch',
		'pattern',
	]);
});

test('air lost: nothing about paint or gun until the painter is back and says that the air is', () => {
	const day = rehearsed();
	day.until(spraying('left door/edges'));
	day.send('wait 20 s');
	day.pick('trouble');
	expect(day.line().corners.topLeft?.code).toBe('air-lost');
	day.pick('air-lost');
	const told = () =>
		[day.line().say, ...day.line().lines, ...Object.values(day.line().corners).map(({ text }) => text)].join(
			' ',
		);
	for (const line of ['hold', 'wait 9 min', 'screen']) {
		day.send(line);
		expect(day.line().state).toBe('hold.air-lost');
		expect(told()).not.toMatch(/gun|cup|batch|paint|face|coat|stroke/i);
	}
	day.pick('back');
	expect(told()).not.toMatch(/gun|cup|batch|paint|face|coat|stroke/i);
	day.pick('not-yet');
	day.pick('back');
	day.pick('air-back');
	expect(day.line().ask).toBe('last-face');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

/** 29 CFR 1910.134(i)(5) and (i)(7): what stands before spraying on supplied air stands again where it failed. */
test('air that was lost is read at the hose before anything else; while it fails, only read again and closing the day', async () => {
	const loaded = await loadLists({ lists: [] }, 'sheet.yaml');
	if (!loaded.ok) throw new Error('the lists do not load');
	const day = rehearsed({ lists: loaded.lists });
	const codes = () => Object.values(day.line().corners).map(({ code }) => code);
	day.until(spraying('left door/edges'));
	for (const code of ['trouble', 'air-lost', 'back']) day.pick(code);
	expect(day.line().say).toBe('Supplied air: flow at the hose, alarm, intake. What is there?');
	expect(codes().sort()).toEqual(['air-back', 'alarm', 'close', 'low']);
	for (const failing of ['alarm', 'low']) {
		day.pick(failing);
		expect(day.line().say).toBe('Supplied air: not back. Stay out until it is.');
		expect(codes()).toEqual(['not-yet', 'close']);
		day.pick('not-yet');
		expect(day.line().state).toBe('hold.air-lost');
		day.pick('back');
	}
	day.pick('air-back');
	expect(day.line().ask).toBe('last-face');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a day whose air does not come back can be closed all the same', () => {
	const day = rehearsed();
	day.until(spraying('left door/edges'));
	day.send('wait 20 s');
	for (const code of ['trouble', 'air-lost', 'back', 'close', 'all']) day.pick(code);
	day.until(({ corners }) => Object.values(corners).some(({ code }) => code === 'close'));
	day.pick('close');
	if (day.line().ask !== 'closed') day.pick('close');
	expect(day.line().ask).toBe('closed');
	expect(day.findings()).toEqual([]);
});

test('with the air lost and not back, closing the day says nothing of paint or gun, and no cleaning is offered', () => {
	const day = rehearsed();
	day.toState('ready');
	day.send('hold');
	for (const code of ['trouble', 'air-lost', 'back', 'close']) day.pick(code);
	const { say, lines, corners } = day.line();
	expect([say, ...lines].join(' ')).not.toMatch(/paint|gun|cup/i);
	expect(Object.values(corners).map(({ code }) => code)).toEqual(['close', 'not']);
	day.pick('not');
	expect(day.line().state).toBe('hold.air-lost');
});

test('a filter mask with an isocyanate material: there is no way on', () => {
	const day = rehearsed();
	day.toState('gunCheck.mask');
	for (let count = 0; count < 5; count++) {
		day.pick('filter-mask');
		expect(day.line()).toMatchObject({ ask: 'do', do: [{ code: 'put-on', to: 'supplied-air' }] });
		expect(Object.values(day.line().corners).map(({ code }) => code)).toEqual(['done']);
		expect(day.send('text I know what I do').accepted).toBe(false);
		day.pick('done');
		expect(day.line().state).toBe('gunCheck.mask');
	}
	day.toEnd();
	expect(day.ofType('override.given')).toEqual([]);
	expect(day.findings()).toEqual([]);
});

test('an overdue pass is not interrupted: it is marked, and asked about when it ends', () => {
	const day = rehearsed();
	day.until(spraying('left door/edges'));
	day.send('wait 130 s');
	expect(day.line().events).toEqual(['face.late', 'gun.unknown']);
	expect(day.line().state).toBe('spraying');
	day.pick('finished');
	expect(day.line().ask).toBe('one-go');
	day.pick('stopped');
	expect(day.toAsk('go').face).toBe('left door/flat');
	expect(day.ofType('gun.checked').map(({ size }) => size)).toEqual(['full', 'full']);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('only when it is far overdue does the screen turn to hold', () => {
	const day = rehearsed();
	day.until(spraying('left door/edges'));
	day.send('wait 4 min');
	expect(day.line().state).toBe('spraying');
	day.send('wait 2 min');
	expect(day.line().state).toBe('hold');
	expect(day.ofType('break.began').map(({ kind, by }) => [kind, by])).toEqual([['overdue', 'program']]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test.each([
	['sleep 9 h', 'suspend'],
	['clock -1 h', 'clock'],
	['hangup', 'hangup'],
	['kill', 'restart'],
])('%s while spraying is a break that nobody keyed', (line, kind) => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 10 s', line);
	expect(day.line().state).toBe('hold');
	expect(day.ofType('break.began').at(-1)).toMatchObject({ kind, by: 'program' });
	day.pick('back');
	if (kind === 'clock') day.pick('clock-right');
	expect(day.line().ask).toBe('last-face');
	day.pick('all');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a clock set back is asked about before anything goes on', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('clock -1 h');
	day.pick('back');
	expect(day.line()).toMatchObject({ state: 'hold.clock', ask: 'choose' });
	expect(day.line().say).toContain('60 min');
	day.pick('clock-wrong');
	expect(day.line().state).toBe('hold');
	day.pick('back');
	day.pick('clock-right');
	expect(day.line().state).not.toMatch(/^hold/);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('after a hold the screen says where the painter was, for how long, and what was sprayed last', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 12 min');
	expect(day.line().say).toContain('Away 12 min');
	expect(day.line().lines.join(' ')).toMatch(/in a wait.*Last: right door flat, coat 1/);
});

test('a pause in the trigger line beyond 20 s is a break', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('trigger on', 'wait 10 s', 'trigger off', 'wait 15 s', 'trigger on', 'wait 5 s', 'trigger off');
	expect(day.line().state).toBe('spraying');
	day.send('wait 21 s');
	expect(day.line().state).toBe('hold');
	expect(day.ofType('break.began').map(({ kind }) => kind)).toEqual(['trigger-pause']);
});

test('a check that was broken off starts again from its first item', () => {
	// Interrupted list: restart from the top. Source: Transport Canada, standard for operating procedures.
	const day = rehearsed();
	day.toState('gunCheck.gauge');
	day.send('hold');
	day.pick('back');
	day.until(({ state }) => state.startsWith('gunCheck') && state !== 'gunCheck.set');
	expect(day.line().state).toBe('gunCheck.mask');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('after a break ten seconds lie between coming back and ready, and the check fills them', () => {
	const day = rehearsed();
	day.toState('gunCheck.gauge');
	day.send('hold');
	day.pick('back');
	day.until(({ state }) => state === 'gunCheck.pattern');
	day.send('wait 4 s');
	day.pick('wide');
	expect(day.line()).toMatchObject({ state: 'gunCheck.settling', ask: 'wait' });
	day.send('wait 5 s');
	expect(day.line().state).toBe('gunCheck.settling');
	day.send('wait 1 s');
	expect(day.line().ask).toBe('go');
});

test('accounting for a face does not set back the clock of the paint in the gun', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 20 s', 'hold', 'wait 55 min');
	day.pick('back');
	day.pick('all');
	const flush = day.line().timers.find(({ code }) => code === 'flush');
	expect(flush?.left_s).toBe(5 * 60);
});

test('a break that nobody saw begin counts from when the program last ran: wet edge, air, and the time away', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 20 s', 'sleep 40 min');
	expect(day.line().say).toBe('The program stood still. Away 40 min.');
	day.pick('back');
	day.pick('part');
	day.send('number 3');
	expect(day.line().state).toBe('edge');
	day.until(spraying('left door/flat'));
	expect(day.ofType('air.read').length).toBe(2);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a face that was all on when the machine slept was finished before it woke', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 20 s', 'sleep 40 min');
	day.pick('back');
	day.pick('all');
	const [ended] = day.ofType('face.ended').filter(({ face }) => face === 'left door/flat');
	const [started] = day.ofType('face.started').filter(({ face }) => face === 'left door/flat');
	expect(Date.parse(ended?.ended ?? '') - Date.parse(started?.at ?? '')).toBe(60_000);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a face finished after its flash is said to be on in part, and from which stroke it goes on', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 20 s', 'hold', 'wait 10 min');
	day.pick('back');
	day.pick('part');
	day.send('number 3');
	day.pick('wait-flash');
	const ready = day.until(({ ask, face, coat }) => ask === 'go' && face === 'left door/flat' && coat === 1);
	expect(ready.lines[0]).toBe('Go on after stroke 3. Not from the start.');
});

test('a pass that ran late is asked about by name, and while spraying only its own time runs', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	expect(day.line().timers.map(({ code }) => code)).toEqual(['late']);
	day.send('wait 3 min');
	day.pick('finished');
	expect(day.line()).toMatchObject({ ask: 'one-go', face: 'left door/flat', coat: 1 });
	day.pick('stopped');
	expect(day.ofType('reading.taken').find(({ feature }) => feature === 'one-go')).toMatchObject({
		face: 'left door/flat',
		coat: 1,
		value: 'stopped',
	});
});

test('a late pass that was broken off is not asked about again: its account has told that it stopped', () => {
	for (const code of ['none', 'part'] as const) {
		const day = rehearsed();
		day.until(spraying('left door/flat'));
		day.send('wait 3 min', 'hold');
		day.pick('back');
		day.pick(code);
		if (code === 'part') day.send('number 2');
		expect(day.line().ask).not.toBe('one-go');
		day.toEnd();
		expect(day.ofType('reading.taken').filter(({ feature }) => feature === 'one-go')).toEqual([]);
		expect(day.findings()).toEqual([]);
	}
});

test('whether it went in one go is asked of the face that was late, whatever face was laid before it', () => {
	const day = rehearsed();
	day.until(spraying('left door/flat'));
	day.send('wait 3 min', 'hold', 'clock -10 min');
	day.pick('back');
	day.pick('clock-right');
	day.pick('all');
	expect(day.line()).toMatchObject({ ask: 'one-go', face: 'left door/flat', coat: 1 });
});

test('a day closed early can clean the gun first, from a hold in the middle of mixing', () => {
	const day = rehearsed();
	day.toState('mix.level.hardener');
	day.send('hold');
	day.pick('close');
	day.pick('clean-up');
	expect(day.line().state).toMatch(/^list.clean-up/);
	expect(day.ofType('batch.discarded').map(({ why }) => why)).toEqual(['the day ends']);
	day.toState('finish.close');
	expect(day.line().say).not.toContain('Clean up');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('time only goes forward, unless the clock is set', () => {
	const day = rehearsed();
	expect(day.send('wait -5 min').accepted).toBe(false);
	expect(day.send('sleep -5 min').accepted).toBe(false);
	expect(day.send('clock -1 h').accepted).toBe(true);
});

test('a line of one word with more behind it is not taken for the word', () => {
	const day = rehearsed();
	for (const line of ['top-left extra', 'hold on', 'kill it', 'hangup now', 'screen 2']) {
		const before = day.records().length;
		expect(day.send(line), line).toMatchObject({ accepted: false, reason: { code: 'unknown-line' } });
		expect(day.records().length).toBe(before);
	}
	expect(day.send('  top-left ').accepted).toBe(true);
});

test('a corner struck twice is never a reading that fits, nor an account of the face', () => {
	const day = rehearsed();
	day.until(({ state }) => state === 'gunCheck.set');
	const done = Object.entries(day.line().corners).find(([, { code }]) => code === 'done')?.[0];
	for (const state of ['gunCheck.pattern', 'gunCheck.horns', 'gunCheck.flooded']) {
		const twin = rehearsed();
		while (twin.until(line => line.state === state || line.ask === 'go').state !== state) {
			twin.send('hold');
			twin.pick('back');
		}
		const code = twin.line().corners[done as 'bottomLeft']?.code;
		twin.pick(code ?? '');
		expect(twin.line().ask).toBe('do');
	}
	day.until(({ state }) => state === 'spraying');
	day.send('hold');
	const back = Object.entries(day.line().corners).find(([, { code }]) => code === 'back')?.[0];
	day.pick('back');
	expect(day.line().corners[back as 'topLeft']).toBeUndefined();
});

test('a clock set back between two stretches, the shares of the second told before those of the first, is in order', () => {
	const job = smallJob();
	const flats = job.faces.filter(({ name }) => name === 'flat');
	const backs = flats.map(face => ({ ...face, id: `${face.part}/back`, name: 'back', after: [] }));
	const day = rehearsed({
		job: { ...job, faces: [...flats, ...backs].map(face => ({ ...face, after: [] })) },
		settings: { by: 'stretch', stretch_s: 130 },
	});
	day.until(() => day.ofType('face.ended').some(({ began }) => began !== undefined));
	day.send('clock -30 min');
	day.toEnd();
	const shares = day.ofType('face.ended').flatMap(({ began }) => began ?? []);
	expect(shares).not.toEqual(shares.toSorted());
	expect(day.findings()).toEqual([]);
});

test.each([
	['a pass far overdue', ['wait 200 s', 'wait 120 s'], 120],
	['a pause in the trigger line', ['trigger on', 'wait 10 s', 'trigger off', 'wait 20 s'], 15],
])(
	'the wet edge counts from when a break can have begun, not from when it was noticed: %s',
	(_, keys, wetEdge_s) => {
		const job = smallJob();
		const { topcoat } = job.materials;
		if (!topcoat) throw new Error('the small job has a topcoat');
		const day = rehearsed({ job: { ...job, materials: { topcoat: { ...topcoat, wetEdge_s } } } });
		day.until(({ state }) => state === 'spraying');
		const began = day.ofType('face.started').at(-1)?.at;
		day.send(...keys);
		expect(day.line().state).toBe('hold');
		const since = day.ofType('trigger.off').at(-1)?.at ?? began;
		expect(day.ofType('break.began').at(-1)).toMatchObject({ by: 'program', since });
		day.pick('back');
		day.pick('part');
		day.send('number 2');
		expect(day.toState('edge').face).toBe('left door/edges');
		day.toEnd();
		expect(day.findings()).toEqual([]);
	},
);

test('a pass far overdue that is all on may have ended as late as it was noticed: its flash counts from then', () => {
	const day = rehearsed();
	day.until(({ state }) => state === 'spraying');
	day.send('wait 6 min');
	const noticed = day.ofType('break.began').at(-1)?.at;
	day.pick('back');
	day.pick('all');
	expect(day.ofType('face.ended').at(-1)).toMatchObject({ extent: 'all', ended: noticed });
});
