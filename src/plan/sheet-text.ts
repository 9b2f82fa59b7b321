import { oddsSaid } from '../film/odds.ts';
import { inert } from '../job/inert.ts';
import type { Job } from '../job/job.ts';
import { riskOf } from '../job/on-work.ts';
import { format, type UnitSystem } from '../trade/shown.ts';
import { clock, date } from '../words/clock.ts';
import { duration, faceName } from '../words/say.ts';
import { barsOf, spellsOf } from './bars.ts';
import type { DayPlan } from './day-plan.ts';
import type { OrderName } from './order.ts';
import type { StagePlan } from './stages.ts';

/** What the text is written with: when the first day starts, where, and how wide. */
export type Said = { start: number; zone: string; units: UnitSystem; width: number };

export const orderWords: Record<OrderName, string> = {
	'fewest-turns': 'fewest turns',
	'wettest-edge': 'wettest edge',
	sheet: 'as written',
};

const nameWidth = 24;
const cut = (text: string, width: number) =>
	text.length > width ? `${text.slice(0, width - 1)}…` : text.padEnd(width);
const timeOf = (said: Said, at_s: number) => clock(said.start + at_s * 1000, said.zone);
const dayOf = (said: Said, at_s: number) => date(said.start + at_s * 1000, said.zone);
const when = (said: Said, at_s: number) => `${dayOf(said, at_s)} ${timeOf(said, at_s)}`;

/** The timeline of a plan, one block of rows a day; every line fits `said.width`. */
export function timelineText(plan: DayPlan, said: Said): string[] {
	const columns = said.width - nameWidth - 1;
	const legend = '1 2 3 coats  · flash  m mix  t turn  c check';
	return spellsOf(plan)
		.flatMap(spell => {
			const ends = `${timeOf(said, spell.from_s)}${timeOf(said, spell.to_s).padStart(columns - 5)}`;
			const head = `${cut(dayOf(said, spell.from_s), nameWidth)} ${ends}`;
			const rows = barsOf(plan, spell, columns).map(({ name, cells }) =>
				`${cut(faceName(name), nameWidth)} ${cells}`.trimEnd(),
			);
			return [head, ...rows];
		})
		.concat(legend);
}

/** Two orders beside each other: turns, length, the oldest wet edge, batches, whether they can be kept. */
export function ordersText(plans: readonly { plan: DayPlan; feasible: boolean }[], said: Said): string[] {
	const head = `${'order'.padEnd(16)}${'turns'.padStart(6)}${'works'.padStart(13)}${'wet edge'.padStart(11)}${'batches'.padStart(9)}${'ends'.padStart(14)}`;
	const rows = plans.map(({ plan, feasible }) => {
		const { name, turns, exact } = plan.order;
		const cells = [
			orderWords[name].padEnd(16),
			`${turns}${exact ? '' : '?'}`.padStart(6),
			duration(plan.minutes * 60).padStart(13),
			duration(plan.wetEdge_s).padStart(11),
			String(plan.batches.length).padStart(9),
			(feasible ? timeOf(said, plan.end_s) : 'cannot be kept').padStart(14),
		];
		return cells.join('');
	});
	const bounds = plans
		.filter(({ plan }) => !plan.order.exact)
		.map(({ plan }) => `? no ${orderWords[plan.order.name]} order has fewer than ${plan.order.atLeast}`);
	return [head, ...rows, ...bounds];
}

/** Each coat: when it begins and ends, and its faces in order, wrapped. */
export function coatsText(plan: DayPlan, said: Said): string[] {
	let at = 0;
	return plan.order.coats.flatMap(({ coat, faces }) => {
		const laid = plan.laid.slice(at, at + faces.length);
		at += faces.length;
		const [first, last] = [laid[0], laid.at(-1)];
		if (!first || !last) return [];
		const head = `coat ${coat}  ${when(said, first.from_s)} to ${timeOf(said, last.to_s)}`;
		return [head, ...wrap(faces.map(faceName).join(', '), said.width - 4).map(line => `    ${line}`)];
	});
}

export function batchesText(job: Job, plan: DayPlan, said: Said): string[] {
	const rows = plan.batches.map(batch => {
		const made = format(batch.volume_mL, 'volume', said.units).padStart(10);
		const times = `mix ${timeOf(said, batch.mix_s)}, use ${timeOf(said, batch.from_s)} to ${timeOf(said, batch.to_s)}, dead ${timeOf(said, batch.dies_s)}`;
		return `${batch.letter.padEnd(3)}${made}  ${times}`;
	});
	const base = new Map<string, number>();
	for (const { material, base_mL } of plan.batches) base.set(material, (base.get(material) ?? 0) + base_mL);
	const boxed = [...base].map(
		([material, base_mL]) =>
			`Box ${format(base_mL, 'volume', said.units)} of ${inert(job.materials[material]?.name ?? material)} base in one can first: one colour for all.`,
	);
	const worst = [...plan.batches].sort(
		(one, other) => other.serves.length - one.serves.length || other.volume_mL - one.volume_mL,
	)[0];
	const loss = worst
		? [
				`One batch wrong spoils ${worst.serves.length} ${worst.serves.length === 1 ? 'pass' : 'passes'} at most, and ${format(worst.volume_mL, 'volume', said.units)} of paint.`,
			]
		: [];
	const odds = `A batch runs short inside a face ${oddsSaid(riskOf(job))} times at most, by what the sheet is unsure of.`;
	return [...rows, ...[odds, ...boxed, ...loss].flatMap(line => wrap(line, said.width))];
}

/** Every stage over the days: when, and for which faces. */
export function stagesText(stages: readonly StagePlan[], said: Said): string[] {
	return stages.flatMap(({ name, kind, faces, verdict }) => {
		const from = Math.min(...faces.map(face => face.planned_s));
		const to = verdict ? verdict.plan.end_s : Math.max(...faces.map(face => face.planned_s));
		const word = kind === 'wait' ? 'over' : 'from';
		const until = to - from >= 60 ? ` to ${when(said, to)}` : '';
		return [
			`${cut(inert(name), nameWidth)} ${word} ${when(said, kind === 'wait' ? to : from)}${kind === 'wait' ? '' : until}`,
		];
	});
}

/** Cuts a sentence into lines at spaces. */
export function wrap(text: string, width: number): string[] {
	const lines: string[] = [];
	for (const word of text.split(' ')) {
		const last = lines.at(-1);
		if (last !== undefined && last.length + 1 + word.length <= width)
			lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}
	return lines.flatMap(line => line.match(new RegExp(`.{1,${width}}`, 'gu')) ?? []);
}
