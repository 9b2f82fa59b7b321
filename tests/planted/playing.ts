import { batchInHand } from '../../machines/day-context.ts';
import type { DayRecord } from '../../src/day/records.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import type { Checklist } from '../../src/job/checklist.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { type Cause, spotKey } from './causes.ts';
import { habits } from './habits.ts';
import { type Bench, freshPot, type Pass, type Pot } from './hidden.ts';
import { type Lots, lotsOf } from './lots.ts';
import { type Floor, type Scheme, schemeFor } from './schemes.ts';
import { sheetCount, sheetJob } from './sheets.ts';

/** One way of a day, played to its end: the hand at the keys, and what really is beside it. */

/** A batch that stands is mixed by two of the four sheets. */
const standing: readonly number[] = [1, 3];

/** Plays a day with these causes; `isWhole`: it came to its end. */
export function playing(lots: Lots, causes: readonly Cause[], lists: Checklist[], seed: number) {
	const isStanding = causes.some(({ code }) => code === 'not-stood');
	const job = sheetJob(isStanding ? lots.pick(standing, 'sheet') : lots.below(sheetCount, 'sheet'));
	const bench: Bench = {
		horns: 'as told',
		pattern: 'even',
		pressure: 1,
		airLine: 'dry',
		air: { C: 0, humidity: 0 },
	};
	const pots = new Map<string, Pot>();
	const passes: Pass[] = [];
	const schemes: Scheme[] = [];
	let begun = 0;

	const entered = (record: DayRecord & { type: 'face.started' }) => {
		const { face, coat, cup, overrides } = record;
		const before = passes.findIndex(pass => spotKey(pass) === spotKey({ face, coat }));
		const pass: Pass = {
			...{ face, coat, at: record.at, nth: begun++, letters: [...cup], bench, pots: [] },
			...{ distance: 1, film: 1, under: 'ready', isClean: true, wasTouched: false },
			times: record.from === 'part' ? (passes[before]?.times ?? 1) : 1 + (passes[before]?.times ?? 0),
		};
		for (const scheme of schemes) scheme.begins?.(pass, bench, pots);
		if (overrides.includes('window')) pass.under = 'wet';
		pass.bench = structuredClone(bench);
		pass.pots = pass.letters.map(letter => structuredClone(pots.get(letter) ?? freshPot(letter)));
		passes.push(pass);
		if (before >= 0) passes.splice(before, 1);
	};
	const heard = (record: DayRecord) => {
		if (record.type === 'batch.started') {
			const pot = freshPot(record.batch);
			for (const scheme of schemes) scheme.batch?.(pot, pots.size);
			pots.set(record.batch, pot);
		}
		if (record.type === 'air.read') bench.air = { C: record.airC, humidity: record.humidity };
		if (record.type === 'face.started') entered(record);
		if (record.type === 'face.ended' && record.extent === 'none')
			for (const pass of passes) if (spotKey(pass) === spotKey(record)) pass.times--;
	};

	const day = rehearsed({
		job,
		lists,
		seed: lots.below(1000, 'seed'),
		settings: { units: 'metric', by: lots.is(0.3, 'by') ? 'face' : 'auto' },
		at: Date.parse('2027-03-02T07:00:00Z') + (seed % 1000) * 86_400_000,
		noted: made => made.forEach(heard),
	});
	const believed = day.painter.world;
	const C = Math.round(lots.between(17, 26, 'air'));
	believed.air = { C, humidity: Math.round(100 * lots.between(0.38, 0.68, 'humid')) / 100, surface_C: C };
	const count = job.faces.reduce((sum, { coats }) => sum + coats.length, 0);
	causes.forEach((cause, nth) => {
		schemes.push(
			schemeFor({ cause, lots: lotsOf(lots.below(2 ** 30, 'scheme', nth)), job, count, believed }),
		);
	});
	const isWhole = keyed(day, lots, { bench, passes, pots, schemes });
	return { day, passes, isWhole, job };
}

type Kept = { bench: Bench; passes: Pass[]; pots: Map<string, Pot>; schemes: Scheme[] };
type Day = ReturnType<typeof rehearsed>;

const wholeLine = /^(hold|wait|number|text)\b/;
/** Questions of the gun that an eye can misread. */
const misreadable: readonly string[] = ['pattern', 'horns', 'batch', 'touch'];

/** What a painter does beside the day: calls, walks, readings misread, keys beside the one meant. */
function besides(line: Line, lots: Lots, nth: number): readonly string[] | null {
	const minutes = 1 + Math.floor(14 * lots.at('away', nth) ** 2);
	const isStill = line.ask !== 'spraying' && line.ask !== 'hold' && line.ask !== 'closed';
	if (isStill && lots.is(habits.calls, 'call', nth)) return ['hold', `wait ${minutes} min`];
	if (isStill && lots.is(habits.strolls, 'stroll', nth)) return [`wait ${minutes} min`];
	const isEye = misreadable.includes(line.ask);
	if (!isEye || !lots.is(habits.misreads + habits.fingers, 'misread', nth)) return null;
	const others = Object.values(line.corners).flatMap(({ code }) => (code === 'trouble' ? [] : [code]));
	return [lots.pick(others, 'other', nth)];
}

/** The hand's own scatter on a number that is read off a scale. */
function scattered(key: string, line: Line, lots: Lots, nth: number): string {
	const value = Number(/^number (.*)$/.exec(key)?.[1]);
	if (line.ask === 'gauge') return `number ${Math.round(value * lots.between(0.96, 1.04, 'gauge', nth))}`;
	if (line.of === 'seconds') return `number ${Math.round(value * lots.between(0.92, 1.08, 'cup', nth))}`;
	const seconds = line.ask === 'spraying' ? Number(/^wait (\d+) s$/.exec(key)?.[1]) : Number.NaN;
	return Number.isNaN(seconds) ? key : `wait ${Math.ceil(seconds * lots.between(0.9, 1.3, 'pace', nth))} s`;
}

function floorOf(day: Day, { bench, passes, pots }: Kept): Floor {
	const state = day.state();
	const [letter, batch] = batchInHand(state.machine.context) ?? [];
	const nth = letter === undefined ? -1 : [...pots.keys()].indexOf(letter);
	return {
		...{ believed: day.painter.world, bench, state, passes },
		mixing: batch ? { component: batch.context.todo[0] ?? '', nth } : null,
	};
}

/** Plays the day to its end; false: it came to none, or keyed what is on no screen. */
function keyed(day: Day, lots: Lots, kept: Kept): boolean {
	for (let nth = 0; nth < 1500; nth++) {
		const line = day.line();
		if (line.ask === 'closed') return true;
		if (nth % 4 === 3 && line.ask !== 'spraying') day.send(`wait ${4 + lots.below(20, 'pause', nth)} s`);
		const floor = floorOf(day, kept);
		const schemed = kept.schemes.map(scheme => scheme.keys?.(day.line(), floor)).find(keys => keys != null);
		const own = () => {
			const key = day.painter.answer(day.line());
			return key === null ? [] : [scattered(key, day.line(), lots, nth)];
		};
		const keys = schemed ?? besides(day.line(), lots, nth) ?? own();
		for (const key of keys) {
			if (wholeLine.test(key)) day.send(key);
			else if (/^(top|bottom)-/.test(key)) day.send(key);
			else if (Object.values(day.line().corners).some(({ code }) => code === key || code === 'more'))
				day.pick(key);
			else return false;
		}
	}
	return false;
}
