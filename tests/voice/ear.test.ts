import { expect, test } from 'vitest';
import { freshEar, type Heard, hears } from '../../src/voice/ear.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallJob } from '../day/small-job.ts';

const told = { warnEarly_min: 10, warnLate_min: 2, overdue: false };

/** Listens to a day as it is rehearsed: what was heard with each line. */
function listened(options: Parameters<typeof rehearsed>[0] = {}) {
	const day = rehearsed(options);
	let ear = freshEar;
	const listen = (overdue = false): Heard => {
		const step = hears(ear, { ...day.line(), rehearsal: true }, { ...told, overdue });
		ear = step.ear;
		return step.heard;
	};
	return { ...day, listen };
}

test('a new question is said once, and not again while it stands', () => {
	const day = listened();
	expect(day.listen().say).toBe(day.line().say);
	day.send('screen');
	expect(day.listen()).toEqual({ say: null, sound: null, notice: null, hush: false });
});

test('while a face is sprayed nothing is said, and what was being said stops', () => {
	const day = listened();
	day.listen();
	day.toState('spraying');
	expect(day.listen()).toEqual({ say: null, sound: null, notice: null, hush: true });
	day.send('wait 5 s');
	expect(day.listen()).toEqual({ say: null, sound: null, notice: null, hush: false });
});

test('a wait warns at 10 min, at 2 min and 8 s or more before its end, and says when it is over', () => {
	const day = listened();
	day.toState('wait');
	day.listen();
	const heard: { left_s: number; heard: Heard }[] = [];
	for (let count = 0; count < 4000 && day.line().state === 'wait'; count++) {
		const left_s = day.line().timers[0]?.left_s ?? 0;
		const now = day.listen();
		if (now.say !== null) heard.push({ left_s, heard: now });
		day.send('wait 1 s');
	}
	expect(heard.map(({ left_s }) => left_s)).toEqual([600, 120, 15]);
	for (const { heard: one } of heard) expect(one).toMatchObject({ sound: 'soon', notice: one.say });
	expect(heard[0]?.heard.say).toMatch(/^Wait: .*, 10 min left, suit up and mix\.$/);
	expect(heard[2]?.heard.say).toMatch(/15 s left, come to the screen\.$/);
	expect(day.listen()).toMatchObject({ say: day.line().say, sound: 'over', notice: day.line().say });
});

test('a wait in which a batch stands is warned of by what is left to do', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const order = ['stir', 'base', 'hardener', 'reducer', 'stand', 'stir', 'strain', 'cup'] as const;
	const day = listened({
		job: { ...job, materials: { topcoat: { ...topcoat, order: [...order], standing_min: 15 } } },
	});
	day.toState('wait');
	day.listen();
	day.send('wait 14 min');
	expect(day.listen().say).toMatch(/60 s left, back to the pot\.$/);
});

test('a warning that is passed in one go is said once, with the time that is left', () => {
	const day = listened();
	day.toState('wait');
	day.listen();
	const left_s = day.line().timers[0]?.left_s ?? 0;
	day.send(`wait ${left_s - 30} s`);
	expect(day.listen().say).toMatch(/30 s left/);
	day.send('screen');
	expect(day.listen().say).toBeNull();
});

test('hold is heard once; the wait that it broke off warns on in it, and its end is told once', () => {
	const day = listened();
	day.toState('wait');
	day.listen();
	day.send('hold');
	expect(day.listen()).toMatchObject({ sound: 'held', say: day.line().say, notice: null });
	const left_s = day.line().timers[0]?.left_s ?? 0;
	day.send(`wait ${left_s - 590} s`);
	expect(day.listen()).toMatchObject({ sound: 'soon', say: expect.stringMatching(/, 10 min left, suit up/) });
	expect(day.line().lines[0]).toBe('You were in a wait, 10 min left.');
	day.send('wait 20 min');
	const over = { sound: 'over', say: expect.stringMatching(/^Wait: .+, it is over, come to the screen\.$/) };
	expect(day.listen()).toMatchObject(over);
	expect(day.line().lines[0]).toBe('You were in a wait. It is over.');
	day.send('wait 1 h');
	expect(day.listen()).toMatchObject({ sound: null, say: null, notice: null });
	day.pick('back');
	expect(day.listen()).toMatchObject({ sound: null, say: day.line().say });
});

test('while air is lost nothing is told of paint, gun or waits, on the screen or by sound', () => {
	const day = listened();
	day.toState('wait');
	day.listen();
	day.pick('trouble');
	day.pick('air-lost');
	day.listen();
	expect(day.line()).toMatchObject({ state: 'hold.air-lost', timers: [], lines: [], face: null });
	day.send('wait 3 h');
	expect(day.listen()).toMatchObject({ sound: null, say: null, notice: null });
	expect(day.line()).toMatchObject({ timers: [], lines: [], face: null });
});

test('a day that is opened in hold is said without a sound', () => {
	const day = listened();
	day.toState('wait');
	day.send('kill');
	expect(day.listen()).toMatchObject({ sound: null, say: day.line().say });
});

test('a pass far over its time is told in another window too; a hold that was keyed is not', () => {
	const day = listened();
	day.toState('spraying');
	day.listen();
	day.send('wait 20 min');
	expect(day.line().state).toBe('hold');
	expect(day.listen(true)).toMatchObject({ sound: 'held', notice: day.line().say });
});
