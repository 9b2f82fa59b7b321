import type { Checklist } from '../../../src/job/checklist.ts';
import type { Job } from '../../../src/job/job.ts';
import { fromUnit, inUnit } from '../../../src/trade/quantity.ts';
import { entryUnit } from '../../../src/trade/shown.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { chanceOf } from '../keys/chance.ts';
import { jobBy } from '../one-paint/sheet.ts';
import { spreadOf, TrueCup } from './hand.ts';

/** Days of a painter who sprays as told, whose paint strays by the sheet's own ±: how often a batch runs short inside a face. */

export type AsTold = {
	days: number;
	passes: number;
	batches: number;
	/** Chances of the sheets that so many batches run short, and their spread squared. */
	expected: number;
	squares: number;
	short: number;
};

export const noneTold: AsTold = { days: 0, passes: 0, batches: 0, expected: 0, squares: 0, short: 0 };

type Day = ReturnType<typeof rehearsed>;

/** What is on a face of the coat that it is getting, by what the day has been told. */
const shareOn = (day: Day, face: string): number => day.state().book.faces.get(face)?.part?.share ?? 0;

/** Out of paint inside a face: the strokes that were laid are told, and the rest comes from the next cup. */
function ranOut(day: Day, strokes: number, got: number): void {
	day.send('wait 2 s');
	for (const code of ['trouble', 'out-of-paint', 'done']) day.pick(code);
	day.until(({ ask }) => ask === 'last-face');
	day.pick('part');
	day.send(`number ${Math.max(1, Math.min(strokes - 1, Math.floor(got * strokes)))}`);
}

/** A face that is being sprayed: to its end, or to the end of the paint. */
function spray(day: Day, cup: TrueCup, face: string, coat: number): void {
	const left = 1 - shareOn(day, face);
	const got = cup.sprayed(face, coat, left);
	const strokes = day.job.faces.find(({ id }) => id === face)?.coats[coat - 1]?.strokes ?? 1;
	if (got < 1) {
		ranOut(day, strokes, 1 - left + got * left);
		return;
	}
	day.send(day.painter.answer(day.line()) ?? '');
	if (day.line().state === 'spraying') day.pick('finished');
}

/** The cup is filled to the level told, or as far as its pot goes: how far that is, is read. */
function fill(day: Day, cup: TrueCup): void {
	const { say, do: told } = day.line();
	const pots = [...day.state().book.batches].filter(([, { pot_mL }]) => (pot_mL ?? 0) > 0);
	const letter = /pot taped ([A-Z]+)/.exec(say)?.[1] ?? pots[0]?.[0] ?? '';
	const { symbol, step } = entryUnit('volume', day.job.units);
	const to = Number(told[0]?.to);
	const reached = inUnit(cup.reaches_mL(letter, fromUnit(to, 'volume', symbol)), 'volume', symbol);
	if (reached > to - step) {
		day.pick('done');
		return;
	}
	day.pick('pot-empty');
	day.send(`number ${(Math.floor(reached / step) * step).toFixed(1)}`);
}

/** @param strays how much wider than the sheet's ± the paint really strays */
function playDay(lists: Checklist[], seed: number, job: Job, strays: number): TrueCup {
	const { common, own } = spreadOf(job);
	const cup = new TrueCup(job, chanceOf(seed * 32_452_843 + 5), {
		common: common * strays,
		own: own * strays,
	});
	let told = 0;
	const day = rehearsed({ job, lists, seed, settings: { by: 'face', units: job.units } });
	for (let count = 0; count < 700 && day.line().ask !== 'closed'; count++) {
		const records = day.records();
		for (const record of records.slice(told)) cup.enter(record);
		told = records.length;
		const line = day.line();
		if (line.state === 'spraying' && line.face !== null && line.coat !== null) {
			spray(day, cup, line.face, line.coat);
			continue;
		}
		if (line.state === 'load') {
			fill(day, cup);
			continue;
		}
		const answer = line.of === 'left' ? null : day.painter.answer(line);
		if (line.of === 'left') day.pick('unread');
		else if (answer === null) break;
		else day.send(answer);
	}
	return cup;
}

/** Sheets with the seeds `from`, `from` + 1 …, a day each. */
export function asToldOn(lists: Checklist[], from: number, days: number, strays = 1): AsTold {
	const sum: AsTold = { ...noneTold };
	for (let seed = from; seed < from + days; seed++) {
		const job = jobBy(seed);
		const { batches, passes, short } = playDay(lists, seed, job, strays);
		const risk = job.risk ?? 0.02;
		sum.days++;
		sum.passes += passes;
		sum.batches += batches.size;
		sum.expected += risk * batches.size;
		sum.squares += risk * (1 - risk) * batches.size;
		sum.short += short;
	}
	return sum;
}

/** The most batches that may run short at the sheets' own risks, three standard errors allowed. */
export const mostShort = ({ expected, squares }: AsTold): number => expected + 3 * Math.sqrt(squares);
