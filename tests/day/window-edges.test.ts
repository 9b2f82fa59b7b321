import { describe, expect, test } from 'vitest';
import { nowAfter } from '../../src/day/now.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import type { RecoatRow } from '../../src/job/job.ts';
import { timerLine } from '../../src/screen/captions.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** What a recoat window does next is told by its own word, with a time of day. */

/** The small job with other windows between its two coats, and work between them. */
function withWindows(windows: RecoatRow['windows'], prep: 'sand' | null = null) {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const recoat = [{ under: 'topcoat', rows: [{ from_C: 10, to_C: 40, windows }] }];
	return {
		...job,
		materials: { topcoat: { ...topcoat, recoat, sandAfter: [{ at_C: 21, hours: 2 }] } },
		faces: job.faces.map(face => ({
			...face,
			coats: face.coats.map((coat, at) =>
				at === 1 && prep ? { ...coat, prep: [{ step: prep, grit: 400 }] } : coat,
			),
		})),
	};
}

const edges = ({ timers }: Line, face: string) =>
	timers.filter(one => one.face === face && ['opens', 'closes', 'window'].includes(one.code));
const told = (line: Line, face: string) => edges(line, face).map(timer => timerLine(timer, line));
const clockOf = (iso: string | undefined) => (iso ?? '').slice(11, 16);

const edge = 'left door/edges';
const afterCoat = (day: ReturnType<typeof rehearsed>) =>
	day.until(({ state, coat, face }) => state === 'wait' && coat === 2 && face === edge);

describe('the windows of a coat', () => {
	test('while it waits: what opens, and from what time of day; nothing is said to close', () => {
		const day = rehearsed();
		const line = afterCoat(day);
		expect(line.timers[0]?.code).toBe('opens');
		for (const { id } of day.job.faces) expect(edges(line, id).map(({ code }) => code)).toEqual(['opens']);
		const [timer] = edges(line, edge);
		expect(told(line, edge)).toEqual([`${edge}: next coat from ${clockOf(timer?.due)}`]);
		day.send(`wait ${timer?.left_s} s`);
		expect(day.ofType('wait.ended')).toHaveLength(1);
		expect(day.line().at >= (timer?.due ?? '')).toBe(true);
	});

	test('once it is open: until when, and what follows', () => {
		const day = rehearsed();
		day.until(({ state, face, coat }) => state === 'ready' && face === edge && coat === 2);
		const [closes, ...more] = edges(day.line(), edge);
		expect(more).toEqual([]);
		const set = day.ofType('window.set').find(({ face }) => face === edge);
		const open = set?.windows.find(({ does }) => does === 'spray');
		expect(closes).toMatchObject({ code: 'closes', due: open?.until, does: 'spray', follows: 'wait' });
		expect(told(day.line(), edge)).toEqual([
			`${edge}: next coat until ${clockOf(open?.until ?? '')}, then wait`,
		]);
	});

	test('at ready a window that closes within the hour is told in the same words', () => {
		const day = rehearsed();
		day.until(({ state, face, coat }) => state === 'ready' && face === edge && coat === 2);
		const [timer] = edges(day.line(), edge);
		day.send('hold', `wait ${(timer?.left_s ?? 0) - 1500} s`);
		day.until(({ state, face, coat }) => state === 'ready' && face === edge && coat === 2);
		expect(day.line().lines).toContain(`Next coat until ${clockOf(timer?.due)}, then wait.`);
	});

	test('a window that opens for sanding says so, never a next coat', () => {
		const day = rehearsed({
			job: withWindows([
				{ does: 'wait', from_h: 0, until_h: 3 },
				{ does: 'sand', from_h: 3, until_h: null },
			]),
		});
		const line = afterCoat(day);
		const [timer] = edges(line, edge);
		expect(timer).toMatchObject({ code: 'opens', does: 'sand' });
		expect(told(line, edge)).toEqual([`${edge}: sand from ${clockOf(timer?.due)}`]);
		day.until(({ state }) => state === 'prep.sand');
		for (const { id } of day.job.faces) expect(told(day.line(), id).join()).not.toMatch(/next coat|until/);
	});

	test('for scuffing likewise, and what ends it is sanding', () => {
		const day = rehearsed({
			job: withWindows([
				{ does: 'wait', from_h: 0, until_h: 1 },
				{ does: 'scuff', from_h: 1, until_h: 2 },
				{ does: 'sand', from_h: 2, until_h: null },
			]),
		});
		const line = afterCoat(day);
		expect(told(line, edge)).toEqual([`${edge}: scuff from ${clockOf(edges(line, edge)[0]?.due)}`]);
		day.toState('prep.scuff');
		expect(told(day.line(), edge)).toEqual([
			`${edge}: scuff until ${clockOf(edges(day.line(), edge)[0]?.due)}, then sand`,
		]);
	});

	test('where the sheet plans a sanding, it is what the wait leads to, and nothing closes once it is done', () => {
		const day = rehearsed({
			job: withWindows(
				[
					{ does: 'wait', from_h: 0, until_h: 0.75 },
					{ does: 'spray', from_h: 0.75, until_h: 3 },
					{ does: 'sand', from_h: 3, until_h: null },
				],
				'sand',
			),
		});
		const line = afterCoat(day);
		expect(told(line, edge)).toEqual([`${edge}: sand from ${clockOf(edges(line, edge)[0]?.due)}`]);
		day.until(({ state, face, coat }) => state === 'ready' && face === edge && coat === 2);
		expect(edges(day.line(), edge)).toEqual([]);
	});

	test('of a face with all its coats on nothing is told', () => {
		const day = rehearsed();
		day.until(({ faces }) => faces.some(({ coats, planned }) => coats === planned));
		const done = day.line().faces.filter(({ coats, planned }) => coats === planned);
		for (const { face } of done) expect(edges(day.line(), face)).toEqual([]);
	});

	test('the closed day says which faces are sanded before their next coat, and from when', () => {
		const day = rehearsed({
			job: withWindows([
				{ does: 'wait', from_h: 0, until_h: 12 },
				{ does: 'sand', from_h: 12, until_h: null },
			]),
		});
		day.toEnd();
		expect(day.line().lines.join()).toMatch(/Left door edges: sand before coat 2, 2 March 20:\d\d\./);
		expect(day.line().lines.join()).not.toMatch(/: coat 2/);
	});

	test('a time of another day has its date', () => {
		const day = rehearsed({ at: Date.parse('2027-03-02T23:00:00Z') });
		const line = afterCoat(day);
		expect(told(line, edge)[0]).toMatch(/next coat from (3 March )?\d\d:\d\d$/);
		expect(told({ ...line, at: '2027-03-01T12:00:00.000Z' }, edge)[0]).toMatch(/from \d March \d\d:\d\d$/);
	});
});

test('the screens and `now` tell the same times, whatever the windows and the work between the coats are', () => {
	const tables: [RecoatRow['windows'], 'sand' | null][] = [
		[smallJob().materials.topcoat?.recoat[0]?.rows[0]?.windows ?? [], null],
		[
			[
				{ does: 'wait', from_h: 0, until_h: 1 },
				{ does: 'scuff', from_h: 1, until_h: 2 },
				{ does: 'sand', from_h: 2, until_h: null },
			],
			null,
		],
		[
			[
				{ does: 'wait', from_h: 0, until_h: 0.75 },
				{ does: 'spray', from_h: 0.75, until_h: 3 },
				{ does: 'sand', from_h: 3, until_h: null },
			],
			'sand',
		],
	];
	let compared = 0;
	for (const [windows, prep] of tables) {
		const day = rehearsed({
			job: withWindows(windows, prep),
			watch(line) {
				if (line.ask === 'spraying' || line.ask === 'closed') return;
				const at = Date.parse(line.at);
				for (const { face, next } of nowAfter(day.records(), at)) {
					const [timer] = edges(line, face);
					if (!timer) continue;
					const due = Date.parse(timer.due);
					const from = 'from' in next ? next.from : null;
					const until = 'until' in next ? next.until : null;
					const says = timer.code === 'opens' ? from : (until ?? due);
					expect([face, Math.abs((says ?? 0) - due) < 5], `${line.at} ${timer.code}`).toEqual([face, true]);
					expect(['wait', 'spray'].includes(next.may), `${face} ${timer.does}`).toBe(timer.does === 'spray');
					compared++;
				}
			},
		});
		day.toEnd();
	}
	expect(compared).toBeGreaterThan(100);
});
