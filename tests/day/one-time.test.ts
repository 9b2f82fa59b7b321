import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** Paint that lives 2 h at 21 °C and flashes 45 min there; no table stands behind the flash. Sums by hand. */
function dayAt(C: number) {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const bare = { ...topcoat, recoat: [], flash: { ...topcoat.flash, max_min: 180 } };
	const day = rehearsed({ job: { ...job, materials: { topcoat: bare } } });
	Object.assign(day.painter.world.air, { C, surface_C: C });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	return day;
}

type Day = ReturnType<typeof dayAt>;
const livesUntil = (day: Day): string => {
	const { due = '', left_s = 0 } = day.line().timers.find(({ code }) => code === 'pot-life') ?? {};
	const poured = day.ofType('reading.taken').filter(({ feature, matched }) => feature === 'can' && matched);
	const hand = poured.map(({ at }) => Date.parse(at)).filter(at => at < Date.parse(due));
	expect(left_s).toBeGreaterThan(0);
	return String(hand.map(at => (Date.parse(due) - at) / 60_000));
};
/** Minutes after the first coat of the first face at which its windows change. */
function edges_min(day: Day): number[] {
	const [set] = day.ofType('window.set');
	const from = Date.parse(set?.windows[0]?.from ?? '');
	return (set?.windows ?? []).slice(1).map(({ from: at }) => (Date.parse(at) - from) / 60_000);
}

test('in cold air paint lives no longer than its sheet says, and its flash takes longer', () => {
	const day = dayAt(16);
	expect(livesUntil(day).split(',')).toContain('120');
	const [opens = 0, shuts = 0] = edges_min(day);
	expect(opens).toBeCloseTo(45 * 2 ** 0.5, 3);
	expect(shuts).toBeCloseTo(180, 3);
	expect(day.ofType('window.set')[0]?.rule).toBe('rule of thumb');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('in warm air a coat flashes no shorter than its sheet says, and paint lives a third as long for 10 °C', () => {
	const day = dayAt(26);
	expect(livesUntil(day)).toMatch(/\b69\.28/);
	const [opens = 0, shuts = 0] = edges_min(day);
	expect(opens).toBeCloseTo(45, 3);
	expect(shuts).toBeCloseTo(180 / 3 ** 0.5, 3);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
