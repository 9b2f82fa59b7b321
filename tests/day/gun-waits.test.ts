import { expect, test } from 'vitest';
import { rehearsed, start } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** No dusty work is asked while a loaded gun waits: not between its check and its first pass, nor with dead paint in it. */

const min_ms = 60_000;

/** Both doors have their first coat; the second goes on from 45 min to 3 h after it, then the coat is sanded first. */
function secondCoats(ended_min: Record<string, number>, job = smallJob()) {
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('no topcoat');
	const windows = [
		{ does: 'wait' as const, from_h: 0, until_h: 0.75 },
		{ does: 'spray' as const, from_h: 0.75, until_h: 3 },
		{ does: 'sand' as const, from_h: 3, until_h: null },
	];
	const recoat = [{ under: 'topcoat', rows: [{ from_C: 15, to_C: 30, windows }] }];
	const coated = (ago_min: number) => ({
		coats: [{ coat: 1, ended: new Date(start - ago_min * min_ms).toISOString(), cup: ['A'], surfaceC: 21 }],
		prep: [],
		aside: null,
	});
	const faces = Object.fromEntries(Object.entries(ended_min).map(([face, ago]) => [face, coated(ago)]));
	const materials = { topcoat: { ...topcoat, recoat, sandAfter: [] } };
	return rehearsed({ job: { ...job, materials }, before: { faces, letters: 1 } });
}

/** A painter who takes 20 s for each answer, up to the second face. */
function slowly(left_s: number) {
	const day = secondCoats({
		'left door/edges': 180 - left_s / 60,
		'left door/flat': 60,
		'right door/flat': 60,
	});
	for (let count = 0; count < 400 && day.ofType('face.ended').length < 2; count++) {
		day.send('wait 20 s');
		const key = day.painter.answer(day.line());
		if (key !== null && day.line().ask !== 'wait') day.send(key);
	}
	return day;
}

test('a window that closes while the gun is checked for another set-up takes nobody from the gun', () => {
	const inTime = slowly(90 * 60);
	const at_s = (type: 'check.began' | 'gun.checked') =>
		(Date.parse(inTime.ofType(type).find(one => !('list' in one) || one.list === 'gun-check')?.at ?? '') -
			start) /
		1000;
	const [from_s, to_s] = [at_s('check.began') - 40, at_s('gun.checked') + 40];
	expect(to_s - from_s).toBeGreaterThan(120);
	for (let left_s = from_s; left_s <= to_s; left_s += 20)
		expect([left_s, ...slowly(left_s).findings()]).toEqual([left_s]);
});

test('paint that died in the cup is emptied before anything is sanded', () => {
	const day = secondCoats({
		'left door/edges': 60,
		'left door/flat': 60,
		'right door/flat': 30,
	});
	day.until(({ state }) => state === 'ready');
	day.send('hold', 'wait 4 h');
	const before = day.records().length;
	day.until(() =>
		day
			.records()
			.slice(before)
			.some(({ type }) => type === 'stage.done'),
	);
	const kinds = day
		.records()
		.slice(before)
		.map(({ type }) => type);
	expect(kinds).toContain('cup.emptied');
	expect(kinds.indexOf('cup.emptied')).toBeLessThan(kinds.indexOf('stage.done'));
});

test('a reason that left a sanding out lets nobody sand beside a wet coat later', () => {
	const job = smallJob();
	const prep = [
		{ step: 'sand' as const, grit: 320 },
		{ step: 'fill' as const, grit: null, then_h: 0.5 },
		{ step: 'sand' as const, grit: 600 },
	];
	const faces = job.faces.map(face =>
		face.part === 'left door'
			? face
			: { ...face, coats: face.coats.map((coat, at) => (at === 1 ? { ...coat, prep } : coat)) },
	);
	const ended_min = { 'left door/edges': 60, 'left door/flat': 60, 'right door/flat': 200 };
	const day = secondCoats(ended_min, { ...job, faces });
	day.toState('prep.sand');
	for (const code of ['skip', 'data-sheet']) day.pick(code);
	day.toState('wait');
	day.send('wait 30 min', 'hold');
	day.pick('back');
	day.until(() => day.ofType('stage.done').some(({ stage }) => stage === 'sand'));
	expect(day.ofType('override.given').map(({ step, place }) => [step, place])).toEqual([['sand', 0]]);
	expect(day.ofType('face.ended').length).toBeGreaterThan(0);
	expect(day.findings().filter(({ property }) => property === 19)).toEqual([]);
});
