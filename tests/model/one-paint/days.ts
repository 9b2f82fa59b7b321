import type { DayRecord } from '../../../src/day/records.ts';
import type { Checklist } from '../../../src/job/checklist.ts';
import type { Job } from '../../../src/job/job.ts';
import { format } from '../../../src/trade/shown.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { type Chance, chanceOf } from '../keys/chance.ts';
import { CupCount } from './cup-count.ts';
import { Judge, type Rates } from './judge.ts';
import { jobBy } from './sheet.ts';

/** Days on sheets by chance whose paint is counted anew beside plan, day, cup and report (property 21). */

export type OnePaint = { sheets: number; figures: number; starts: number; cups: number; says: string[] };

export const noPaint: OnePaint = { sheets: 0, figures: 0, starts: 0, cups: 0, says: [] };

type Day = ReturnType<typeof rehearsed>;

/** Now and then a shop has learned what its materials take. */
const ratesBy = (job: Job, chance: Chance): Rates =>
	chance.next() < 0.5
		? {}
		: Object.fromEntries(
				Object.keys(job.materials).map(id => [
					id,
					{ factor: chance.pick([0.8, 0.93, 1.1, 1.25]), unsure: chance.pick([0.04, 0.07]) },
				]),
			);

/** What stands on the screen at *ready*: the cup's count, and what the next face wants. */
function judgeReady(day: Day, judge: Judge, count: CupCount): void {
	const { lines, face } = day.line();
	const wants = face === null ? null : count.wants_mL(face);
	if (wants === null) return;
	const shown = (mL: number) => format(mL, 'volume', day.job.units);
	const said = lines.find(line => line.startsWith('Cup '));
	if (said === undefined) return;
	/** A figure on the edge of two shown ones may be rounded to either. */
	const own = [0, -1e-5, 1e-5].flatMap(cup =>
		[0, -1e-5, 1e-5].map(want => `Cup ${shown(count.cup_mL + cup)}, wants ${shown(wants + want)}.`),
	);
	judge.holds(`on the screen “${said}”, by own count “${own[0]}”`, own.includes(said));
	judge.same('cup in the day', day.state().book.cup_mL, count.cup_mL);
}

/** A careful painter's day; now and then a face is broken off and finished. */
function play(day: Day, chance: Chance, judge: Judge, count: CupCount, most: number): void {
	let told = 0;
	let broken = false;
	for (let lines = 0; lines < most && day.line().ask !== 'closed'; lines++) {
		const line = day.line();
		const strokes =
			day.job.faces.find(({ id }) => id === line.face)?.coats[(line.coat ?? 1) - 1]?.strokes ?? 0;
		const records = day.records();
		for (; told < records.length; told++) {
			const record = records[told];
			if (record) count.enter(record);
		}
		if (line.state === 'ready') judgeReady(day, judge, count);
		if (line.state === 'spraying' && strokes >= 4 && !broken && chance.next() < 0.1) {
			broken = true;
			day.send('wait 2 s', 'hold');
			continue;
		}
		if (line.state !== 'spraying' && line.state !== 'hold') broken = false;
		const answer = day.painter.answer(line);
		if (answer === null) break;
		day.send(answer);
	}
	for (const record of day.records().slice(told)) count.enter(record);
}

/**
 * Sheets with the seeds `from`, `from` + 1 …, each planned, sprayed and reported.
 * @param enough so many findings end it
 */
export function onePaintOn(
	lists: Checklist[],
	from: number,
	sheets: number,
	enough = Number.POSITIVE_INFINITY,
): OnePaint {
	const sum: OnePaint = { ...noPaint, says: [] };
	for (let seed = from; seed < from + sheets && sum.says.length < enough; seed++) {
		const chance = chanceOf(seed * 6151 + 3);
		const job = jobBy(seed);
		const rates = ratesBy(job, chance);
		const judge = new Judge(job, rates);
		judge.sheet();
		judge.plan();
		const asDay = Object.fromEntries(
			Object.entries(rates).map(([id, { factor, unsure }]) => [
				id,
				{ time: null, paint: factor, unsure, cups: 1 },
			]),
		);
		const day = rehearsed({
			...{ job, lists, seed },
			settings: { by: 'face', cards: chance.next() < 0.2, units: job.units },
			rates: asDay,
		});
		const count = new CupCount(job, judge);
		play(day, chance, judge, count, 500);
		const records: readonly DayRecord[] = day.records();
		judge.report(records);
		judge.learnt(records, count.cups);
		sum.sheets++;
		sum.figures += judge.judged.figures;
		sum.starts += count.starts;
		sum.cups += count.cups.length;
		sum.says.push(...judge.judged.says.map(says => `sheet ${seed}: ${says}`));
	}
	return sum;
}
