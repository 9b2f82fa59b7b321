import type { DayPlan } from './day-plan.ts';
import type { Step } from './timeline.ts';

/** A stretch of time with no night in it. */
export type Spell = { from_s: number; to_s: number };

/** The days of a plan: what lies between its nights. */
export function spellsOf({ steps, start_s, end_s }: Pick<DayPlan, 'steps' | 'start_s' | 'end_s'>): Spell[] {
	const nights = steps.filter(step => step.does === 'night');
	const starts = [start_s, ...nights.map(night => night.to_s)];
	return starts.map((from_s, at) => ({ from_s, to_s: nights[at]?.from_s ?? end_s }));
}

export type Bar = { name: string; cells: string };

/**
 * The timeline as rows of text: a row for the gun (`c` check, `t` turn, `m` mixing), one for the batch in the cup
 * (its letter), and one for each face (the coat's last figure while it is sprayed, dots while it waits for the next).
 * @param columns cells in each row, each an equal share of the time
 */
export function barsOf(plan: DayPlan, spell: Spell, columns: number): Bar[] {
	const cell_s = (spell.to_s - spell.from_s) / columns;
	const row = () => Array.from({ length: columns }, () => ' ');
	const paint = (cells: string[], from_s: number, to_s: number, mark: string, over = true) => {
		if (to_s <= spell.from_s || from_s >= spell.to_s) return;
		const first = Math.max(0, Math.floor((from_s - spell.from_s) / cell_s));
		const last = Math.min(columns - 1, Math.ceil((to_s - spell.from_s) / cell_s - 1e-9) - 1);
		for (let at = first; at <= Math.max(first, last); at += 1)
			if (over || cells[at] === ' ') cells[at] = mark;
	};
	const gun = row();
	for (const step of plan.steps) {
		const mark = gunMark(step);
		if (mark) paint(gun, step.from_s, step.to_s, mark, step.does !== 'check');
	}
	const cup = row();
	for (const { from_s, to_s, letter } of plan.batches) paint(cup, from_s, to_s, letter.slice(-1));
	const faces = [...new Set(plan.laid.map(each => each.face))].map(face => {
		const laid = plan.laid.filter(each => each.face === face);
		const cells = row();
		for (const [at, { to_s }] of laid.entries()) paint(cells, to_s, laid[at + 1]?.from_s ?? to_s, '·');
		for (const { from_s, to_s, coat } of laid) paint(cells, from_s, to_s, String(coat % 10));
		return { name: face, cells: cells.join('') };
	});
	return [{ name: 'gun', cells: gun.join('') }, { name: 'cup', cells: cup.join('') }, ...faces];
}

const gunMark = ({ does }: Step): string | null => {
	if (does === 'turn') return 't';
	if (does === 'mix') return 'm';
	return does === 'check' ? 'c' : null;
};
