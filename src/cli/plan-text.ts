import { oddsSaid } from '../film/odds.ts';
import { inert } from '../job/inert.ts';
import { gunsOn, type Job } from '../job/job.ts';
import { turnedByFlash } from '../job/turned-on.ts';
import type { DayPlan } from '../plan/day-plan.ts';
import { type JobPlan, namedOrders } from '../plan/job-plan.ts';
import type { Learned } from '../plan/rates.ts';
import {
	batchesText,
	coatsText,
	ordersText,
	orderWords,
	type Said,
	stagesText,
	timelineText,
	wrap,
} from '../plan/sheet-text.ts';
import { seedOf, windowOdds } from '../plan/window-odds.ts';
import { format } from '../trade/shown.ts';
import { faceName, sentence } from '../words/say.ts';

/** The plan as tables and timelines that fit the width. */
export function planText(plan: JobPlan, said: Said): string[] {
	const { job, stages, learned, reasons } = plan;
	const air = format(job.shop.air_C, 'temperature', said.units);
	return [
		...wrap(`${inert(job.name)}, planned for ${air}`, said.width),
		'',
		...stagesText(stages, said),
		...turnedLines(plan).flatMap(line => wrap(line, said.width)),
		...stages.flatMap((_, index) => stageText(plan, index, said)),
		...Object.entries(learned).flatMap(([id, its]) => wrap(learnedLine(job, id, its), said.width)),
		...weighLines(plan).flatMap(line => wrap(line, said.width)),
		...(reasons.length > 0 ? ['', 'This cannot be kept:'] : []),
		...reasons.flatMap(reason => wrap(`${sentence(reason)}.`, said.width - 2).map(line => `  ${line}`)),
	];
}

/** What parts are turned over on by the flash, since its sheet does not say when it is dry to handle. */
function turnedLines({ job, stages }: JobPlan): string[] {
	const on = turnedByFlash(
		job,
		stages.map(({ stage }) => stage),
	);
	return on.map(
		id => `Turned over by the flash: ${inert(job.materials[id]?.name ?? id)} has no time dry to handle.`,
	);
}

/** The window that is likeliest to be missed. */
function missedLine(job: Job, plan: DayPlan): string {
	const odds = windowOdds(plan, seedOf(job));
	const [first] = odds;
	if (!first) return 'Windows: none closes.';
	const worst = odds.reduce((most, one) => (one.missed > most.missed ? one : most), first);
	return `Window likeliest missed: ${faceName(worst.face)}, coat ${worst.coat}: ${oddsSaid(worst.missed)}.`;
}

function stageText({ job, chosen, by, stages }: JobPlan, index: number, said: Said): string[] {
	const verdict = stages[index]?.verdict;
	if (!verdict) return [];
	const named = namedOrders.flatMap(name => by[name][index]?.verdict ?? []);
	return [
		'',
		...wrap(`${inert(stages[index]?.name ?? '')}: ${orderWords[chosen]}`, said.width),
		...ordersText(chosen === 'sheet' ? [...named, verdict] : named, said),
		'',
		...coatsText(verdict.plan, said),
		'',
		...batchesText(job, verdict.plan, said),
		...lastStart(verdict.plan.latestStart_s, said),
		...wrap(missedLine(job, verdict.plan), said.width),
		'',
		...timelineText(verdict.plan, said),
	];
}

function lastStart(last: number | null, said: Said): string[] {
	if (last === null) return [];
	const at = new Intl.DateTimeFormat('en-GB', {
		dateStyle: 'long',
		timeStyle: 'short',
		timeZone: said.zone,
	});
	return [`Last moment to start: ${at.format(said.start + last * 1000)}.`];
}

/** What would settle most of the batches, where a transfer is the usual one and no cup of its material was measured. */
function weighLines({ job, learned }: JobPlan): string[] {
	const isUnmeasured = Object.keys(job.materials).some(
		id => !learned[id]?.use && gunsOn(job, id).some(({ assumed }) => assumed?.includes('transfer')),
	);
	return isUnmeasured
		? [
				'Transfer usual, not measured: batches are larger for it. First weigh the cup over one face (fanwise work gun).',
			]
		: [];
}

/** What a shop's own days have shown, in its own words. */
function learnedLine(job: Job, id: string, { time, use, timed }: Learned): string {
	const name = inert(job.materials[id]?.name ?? id);
	const factor = (value: number) => value.toFixed(2);
	const elapsed =
		time === null
			? []
			: [`takes ${factor(time)} of the sheet's time from START to FINISHED, from ${timed} faces`];
	const paint =
		use === null
			? []
			: [
					`uses ${factor(use.factor)} of the sheet's paint, from ${use.cups} ${use.cups === 1 ? 'cup' : 'cups'}`,
				];
	return `${name}: this shop ${[...elapsed, ...paint].join(', ')}.`;
}
