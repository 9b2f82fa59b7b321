import { atLeast_s, atMost_s } from '../../../src/day/instant.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { duration } from '../../../src/words/say.ts';
import { rehearsed, start } from '../../day/rehearsed.ts';
import { smallJob } from '../../day/small-job.ts';
import { type Chance, chanceOf } from '../keys/chance.ts';
import { judge, type Timed } from './judge.ts';
import { type TrueMachine, trueMachine } from './machine.ts';

/**
 * Days by chance on a machine that sleeps, is stopped, is started anew, and whose wall clock is set, against the true time
 * (property 18): no minimum ends early, no maximum late, and the screens say one thing. Left out is what no clock shows: a
 * wall clock set forward while the machine was off, or back by less than has passed since the last record, and one set back
 * while it slept where no uptime tells.
 */

export type Right = {
	days: number;
	minimums: number;
	maximums: number;
	screens: number;
	jumps: number;
	says: string[];
};
type Day = ReturnType<typeof rehearsed>;

const minute_ms = 60_000;
/** Clocks that differ by less are taken for one; so often that it adds up, ms. */
const slack_ms = 20_000;
const spans_min = [0.2, 1, 3, 12, 40, 44, 46, 70, 110, 125, 170, 200, 250];
const steps_min = [-240, -60, -45, -10, -1, 1, 10, 44, 60, 120, 240];

/**
 * What comes between: what is done to the machine, whether a clock that goes on by itself then slept or was set, and whether
 * the clocks tell how much time passed.
 */
type Between = {
	what: string;
	forward: 'slept' | 'set' | null;
	isTold: boolean;
	to: (machine: TrueMachine) => void;
	kill?: true;
};

/** @param since_ms by the wall clock, since the last record was made */
function drawn(chance: Chance, tellsSleep: boolean, since_ms: number, isTold: boolean): Between {
	const span = chance.pick(spans_min) * minute_ms;
	const step = chance.pick(steps_min) * minute_ms;
	const set = step > 0 ? ('set' as const) : null;
	const anew = chance.next() < 0.5;
	const behind = -since_ms - span - Math.abs(step);
	const all: Between[] = [
		{
			what: `asleep ${span}`,
			forward: 'slept',
			isTold: tellsSleep,
			to: machine => machine.sleep(span),
		},
		{ what: `set by ${step}`, forward: set, isTold: step < 0, to: machine => machine.set(step) },
		{ what: `stopped ${span}`, forward: 'slept', isTold: false, to: machine => machine.stopped(span) },
		{
			what: `off ${span}`,
			forward: null,
			isTold: false,
			kill: true,
			to: machine => machine.off(span, true, 0),
		},
		{
			what: `off ${span}, the clock behind by ${behind}`,
			forward: null,
			isTold: false,
			kill: true,
			to: machine => machine.off(span, anew, behind),
		},
		{
			what: `no program for ${span}`,
			forward: null,
			isTold: true,
			kill: true,
			to: machine => machine.off(span, false, 0),
		},
		{
			what: `no program for ${span}, set by ${step}`,
			forward: set,
			isTold: false,
			kill: true,
			to: machine => machine.off(span, false, step),
		},
		{
			what: `asleep ${span}, set by ${step}`,
			forward: set,
			isTold: false,
			to(machine) {
				machine.sleep(span);
				machine.set(step);
			},
		},
	];
	/** No clock shows the last two where no uptime tells of them. */
	const shown = tellsSleep ? all : all.slice(0, -2);
	return chance.pick(isTold ? shown.filter(one => one.isTold) : shown);
}

/** The small job with a standing time, so that each kind of wait comes up. */
function job() {
	const small = smallJob();
	const { topcoat } = small.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const order = ['stir', 'base', 'hardener', 'reducer', 'stir', 'stand', 'stir', 'strain', 'cup'] as const;
	return { ...small, materials: { topcoat: { ...topcoat, order: [...order], standing_min: 15 } } };
}

const leftIn = (day: Day) => /You were in a wait, (.*) left\./.exec(day.line().lines.join('\n'))?.[1];
const isOver = (day: Day) => day.line().lines.includes('You were in a wait. It is over.');
const waits = (day: Day) => /^Wait ([^,:]*)[,:]/.exec(day.line().say)?.[1];

/** The true time since the day was opened lies within what its clocks leave; where they tell it, they leave no more. */
function boundsOf(day: Day, truth_ms: number, isTold: boolean): string[] {
	const now = day.state().book.now;
	const opened = { ...now, sure: 0, gaps: [] };
	const [least_ms, most_ms] = [atLeast_s(opened, now) * 1000, atMost_s(opened, now) * 1000];
	const said = `${truth_ms / minute_ms} min, by the clocks ${least_ms / minute_ms} to ${most_ms / minute_ms}`;
	if (least_ms > truth_ms + slack_ms || most_ms < truth_ms - slack_ms) return [`the day is open for ${said}`];
	const isTight = least_ms > truth_ms - slack_ms && most_ms < truth_ms + slack_ms;
	return isTold && !isTight ? [`the day is told to be open for ${said}`] : [];
}

/** In a hold that speaks of a wait its timer says the same. */
function timerInHold(day: Day): string[] {
	const left = leftIn(day);
	if (day.line().state !== 'hold' || left === undefined) return [];
	const [timer] = day.line().timers;
	const said = timer && duration(timer.left_s);
	return said === left ? [] : [`hold says ${left} left, and its timer ${said}`];
}

/** Coming back from a hold that said something of a wait: what follows must say the same. */
function back(day: Day, jumped: readonly Between['forward'][], chance: Chance, sum: Right): string[] {
	const left = leftIn(day);
	const over = isOver(day);
	const at = day.line().at;
	day.pick('back');
	if (day.line().state === 'hold.jump') {
		sum.jumps++;
		const kinds = [...new Set(jumped.filter(kind => kind !== null))];
		const known = kinds.length === 1 && chance.next() < 0.7 ? kinds[0] : undefined;
		day.pick(known ?? 'not-sure');
		if (known === 'slept') {
			if (day.line().state === 'hold.clock') day.pick('clock-right');
			return [];
		}
	}
	if (day.line().state === 'hold.clock') day.pick('clock-right');
	if (left === undefined && !over) return [];
	/** Between them the air may be read again. */
	for (let count = 0; count < 12 && day.line().state.startsWith('air.'); count++) {
		const next = day.painter.answer(day.line());
		if (next) day.send(next);
	}
	if (day.line().at !== at) return [];
	sum.screens++;
	const said = waits(day);
	if (over && day.line().state === 'wait') return [`hold said the wait is over, then: ${day.line().say}`];
	if (left !== undefined && day.line().state === 'wait' && said !== left)
		return [`hold said ${left} left, then: ${day.line().say}`];
	return [];
}

function again(records: readonly Timed[]): string[] {
	return records.flatMap((record, at) => {
		if (record.type !== 'wait.ended') return [];
		const next = records.slice(at + 1).find(({ type }) => type === 'wait.began' || type === 'face.started');
		const same =
			next?.type === 'wait.began' &&
			next.face === record.face &&
			next.coat === record.coat &&
			next.why === 'window' &&
			next.at === record.at;
		return same ? [`record ${record.seq}: the wait ended, and began again at once until ${next.due}`] : [];
	});
}

/** @param most lines before a day is left as it stands */
function playDay(seed: number, most: number, sum: Right): string[] {
	const chance = chanceOf(seed * 6151 + 29);
	const tellsSleep = chance.next() < 0.5;
	const machine = trueMachine(start, tellsSleep);
	const timed: Timed[] = [];
	const noted = (made: readonly DayRecord[]) =>
		void timed.push(...made.map(record => ({ ...record, truth: machine.truth() })));
	const day = rehearsed({ job: job(), clock: machine, noted, seed });
	timed.unshift({ ...(day.records()[0] as DayRecord), truth: 0 });
	const says: string[] = [];
	const told: string[] = [];
	let jumped: Between['forward'][] = [];
	let isTold = true;
	const isToldDay = chance.next() < 0.3;
	const often = chance.pick([0.02, 0.05, 0.1]);
	for (let count = 0; count < most && day.line().ask !== 'closed' && says.length === 0; count++) {
		if (chance.next() < (day.line().state === 'wait' ? 0.3 : often)) {
			if (chance.next() < 0.5) day.send(`wait ${chance.pick(spans_min)} min`);
			const since_ms = machine.now().wall - day.state().book.now.wall;
			const between = drawn(chance, tellsSleep, since_ms, isToldDay);
			told.push(`line ${count}, ${day.line().state}: ${between.what}`);
			between.to(machine);
			day.send(between.kill ? 'kill' : 'wait 0 s');
			jumped.push(between.forward);
			isTold &&= between.isTold;
		} else if (day.line().state === 'hold') {
			if (chance.next() < 0.2) day.send(`wait ${chance.pick(spans_min)} min`);
			says.push(...back(day, jumped, chance, sum));
			jumped = [];
		} else if (chance.next() < often / 2) day.send('hold', `wait ${chance.pick(spans_min)} min`);
		else {
			const answer = day.painter.answer(day.line());
			if (answer === null) break;
			day.send(answer);
		}
		const opened = timed.at(-1)?.truth ?? 0;
		says.push(...boundsOf(day, opened, isTold), ...timerInHold(day));
	}
	const judged = judge(timed);
	sum.minimums += judged.minimums;
	sum.maximums += judged.maximums;
	const found = [...says, ...judged.says, ...again(timed)];
	return found.length === 0 ? [] : [`day ${seed}: ${found[0]} (${told.slice(-4).join('; ')})`];
}

export const noneRight: Right = { days: 0, minimums: 0, maximums: 0, screens: 0, jumps: 0, says: [] };

/** Days with the seeds `from`, `from` + 1 … */
export function rightOn(from: number, count: number, enough = 10): Right {
	const sum: Right = { ...noneRight, says: [] };
	for (let seed = from; seed < from + count && sum.says.length < enough; seed++) {
		sum.says.push(...playDay(seed, 300, sum));
		sum.days++;
	}
	return sum;
}
