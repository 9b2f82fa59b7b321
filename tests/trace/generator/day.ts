import type { DayRecord } from '../../../src/day/records.ts';
import { settingsSchema } from '../../../src/day/settings.ts';
import type { Face, Job } from '../../../src/job/job.ts';
import { noise } from './distractors.ts';
import { capTurn, gunCheck } from './gun-check.ts';
import { fill, type MixUp, marks } from './mixing.ts';
import type { Plant } from './plants.ts';
import type { Random } from './random.ts';
import { type Laid, spray, usual } from './spraying.ts';
import { breakFor, materialOf, override, planOf, readAir, say, standing, type World } from './world.ts';
import { iso, writer } from './writer.ts';

const settings = settingsSchema.parse({});

/** A shop and a painter before the first day of a job. */
export function world(random: Random, job: Job, start: number): World {
	return {
		random,
		job,
		day: 0,
		w: writer(start),
		gun: { horns: 'level', bad: false, pressure_kPa: job.gun.pressure_kPa, flow: 1 },
		line: random.chance(0.4),
		believed: { horns: 'level', known: false },
		cup: [],
		cup_mL: 0,
		spare_mL: 0,
		batches: new Map(),
		air: { airC: 21, humidity: 0.55, surfaceC: 20 },
		airSeq: null,
		airAt: start,
		check: 0,
		faces: new Map(job.faces.map(face => [face.id, { ended: null, coats: 0, day: -1, snagged: false }])),
		habit: false,
		skip: new Set(),
		sprayed: [],
	};
}

function opened(w: World): void {
	const faces = Object.fromEntries(
		[...w.faces.keys()].map(id => [
			id,
			{
				coats: w.sprayed
					.filter(one => one.face === id)
					.map(one => ({ coat: one.coat, ended: iso(one.ended), cup: one.cup, surfaceC: 20 })),
				prep: [],
				aside: null,
			},
		]),
	);
	say(w, {
		type: 'day.opened',
		v: 1,
		program: '0.1.0',
		job: w.job.name,
		sheet: w.job,
		lists: [],
		settings,
		clock: 'real',
		zone: 'UTC',
		cans: Object.values(w.job.materials).flatMap(({ id }) =>
			(['base', 'hardener', 'reducer'] as const).map(component => ({
				material: id,
				component,
				mark: marks[component],
			})),
		),
		before: { faces, letters: w.batches.size },
	});
	w.check += 1;
	const items = ['mask', 'extractor', 'earth', 'lights', 'floor'];
	say(w, {
		type: 'check.began',
		check: w.check,
		list: 'before-spraying',
		size: null,
		items,
		face: null,
		coat: null,
	});
	for (const item of items) {
		w.w.pass(w.random.between(4, 20));
		const passed = item === 'mask' || w.random.chance(0.96);
		say(w, {
			type: 'item.answered',
			check: w.check,
			list: 'before-spraying',
			item,
			answer: passed ? 'yes' : 'no',
			passed,
		});
		if (!passed) override(w, item, null, null);
	}
	readAir(w);
}

type Turn = { face: Face; coat: number; nth: number; index: number; plant: Plant | null };

const has = (turn: Turn): boolean => {
	const { plant } = turn;
	return (
		plant !== null &&
		turn.nth === plant.nth &&
		turn.index >= plant.index &&
		turn.index < plant.index + plant.faces
	);
};
const starts = (turn: Turn): boolean => has(turn) && turn.index === turn.plant?.index;

function prepare(w: World, turn: Turn, laid: Laid): void {
	const { face, coat, plant } = turn;
	const mine = has(turn);
	for (const { step } of planOf(face, coat).prep) {
		const left = mine && plant?.cause === 'surface' && plant.variant === 'unsaid' && step === 'tack';
		if (left) override(w, 'prep', face, coat);
		else if (w.random.chance(0.985)) say(w, { type: 'stage.done', face: face.id, stage: step, grit: null });
	}
	if (coat > 1 && planOf(face, coat).stage === 2 && planOf(face, coat - 1).stage === 0) {
		laid.window = 'sand';
		if (mine && plant?.prep) laid.shut = true;
		if (mine && plant?.prep === 'unsaid') {
			override(w, 'window', face, coat);
		} else say(w, { type: 'stage.done', face: face.id, stage: 'sand', grit: 400 });
	}
}

/** Waits for the flash of the coat before, unless somebody is in a hurry. */
function flash(w: World, turn: Turn, laid: Laid): void {
	const { face, coat, plant } = turn;
	const state = standing(w, face);
	if (state.ended === null || state.day !== w.day) return;
	const need = materialOf(w, planOf(face, coat)).flash.min_min * 60_000;
	const due = state.ended + need;
	if (w.w.now >= due) {
		touch(w, turn);
		return;
	}
	const rush = has(turn) && plant?.rush === true;
	const slight = !rush && w.random.chance(0.04);
	const until = rush ? w.w.now + 60_000 : slight ? state.ended + need * w.random.between(0.64, 0.97) : due;
	if (until > w.w.now + 20_000) {
		say(w, { type: 'wait.began', face: face.id, coat, due: iso(due), why: 'flash' });
		say(w, { type: 'gun.unknown', why: 'wait' });
		w.believed.known = false;
		w.w.pass((until - w.w.now) / 1000);
		if (until >= due) say(w, { type: 'wait.ended', face: face.id, coat, due: iso(due) });
	}
	if (until < due) {
		override(w, 'window', face, coat);
		laid.window = 'wait';
		laid.overrides = ['window'];
		return;
	}
	touch(w, turn);
}

/** The touch test on a tape tab, now and then left out; what is still in strings is never called tacky. */
function touch(w: World, turn: Turn): void {
	const { face, coat, plant } = turn;
	if ((has(turn) && plant?.untouched) || w.random.chance(0.07)) return;
	say(w, {
		type: 'reading.taken',
		feature: 'touch',
		value: 'tacky',
		wanted: ['tacky', 'dry'],
		matched: true,
		attempt: 1,
		check: null,
		face: face.id,
		coat,
		batch: null,
		faces: [face.id],
	});
}

const used = new WeakSet<Plant>();

/** The first batch mixed from the planted place on is the one that goes wrong. */
function mixUpFor({ plant, nth, index }: Turn): MixUp | undefined {
	if (!plant?.mixUp || nth !== plant.nth || index < plant.index || used.has(plant)) return undefined;
	used.add(plant);
	return plant.mixUp;
}

/** Makes the gun ready: paint, horns, check. */
function ready(w: World, turn: Turn, mL: number, later_mL: number): void {
	const { face, coat, plant } = turn;
	const plan = planOf(face, coat);
	let filled: 'refill' | 'batch' | null = null;
	while (w.cup_mL < mL || w.cup.length === 0 || w.batches.get(w.cup[0] ?? '')?.material !== plan.material) {
		if (w.batches.get(w.cup[0] ?? '')?.material !== plan.material) w.spare_mL = 0;
		const step = fill(w, plan.material, Math.max(later_mL, mL + 20), () => mixUpFor(turn));
		filled = step === 'batch' ? 'batch' : (filled ?? 'refill');
	}
	const forgot = starts(turn) && plant?.variant === 'turn';
	if (forgot) {
		say(w, { type: 'gun.unknown', why: 'cap-turn' });
		say(w, { type: 'gun.set', horns: plan.horns, pressure_kPa: null, fanHeight_mm: null, fluid: null });
		w.gun.horns = plan.horns === 'level' ? 'upright' : 'level';
		w.skip = new Set(['pattern', 'horns']);
		override(w, 'gun-check', face, coat);
		gunCheck(w, 'short', face, coat);
		return;
	}
	const turned = w.believed.horns !== plan.horns;
	if (!w.believed.known || filled === 'batch') {
		if (turned) {
			say(w, { type: 'gun.set', horns: plan.horns, pressure_kPa: null, fanHeight_mm: null, fluid: null });
			if (!w.skip.has('pattern') && !w.habit) w.gun.horns = plan.horns;
		}
		gunCheck(w, 'full', face, coat);
	} else if (turned) capTurn(w, face, coat);
	else if (filled === 'refill') gunCheck(w, 'short', face, coat);
}

function turnOf(w: World, turn: Turn, later_mL: number): void {
	const { face, coat, plant } = turn;
	const laid = usual();
	const mine = has(turn);
	noise(w, face, coat, laid);
	prepare(w, turn, laid);
	if (starts(turn)) plant?.before?.(w, face, coat);
	if (mine) plant?.lay?.(laid, w, face, coat);
	if (laid.shut && plant?.prep !== 'ticked') laid.overrides = ['window'];
	if (laid.shut && plant?.variant === 'long') override(w, 'window', face, coat);
	flash(w, turn, laid);
	ready(w, turn, planOf(face, coat).volume_mL * Math.max(1, laid.slow), later_mL);
	if (starts(turn)) plant?.slip?.(w);
	spray(w, face, coat, laid);
	if (starts(turn) && plant?.variant === 'again') again(w, turn, later_mL);
	const over = plant?.over;
	if (plant && over && turn.nth === plant.nth && turn.index === plant.index + over.after) over.undo(w);
}

/** A face broken off and gone over from its start. */
function again(w: World, turn: Turn, later_mL: number): void {
	breakFor(w, w.random.between(60, 300));
	ready(w, turn, planOf(turn.face, turn.coat).volume_mL, later_mL);
	spray(w, turn.face, turn.coat, { ...usual(), extra: true });
}

/** One whole day of spraying, from opening to closing; the gun is set up from scratch. */
export function runDay(w: World, stage: 0 | 2, plant: Plant | null): DayRecord[] {
	const { job, random } = w;
	w.believed.known = false;
	w.gun = { horns: 'level', bad: false, pressure_kPa: job.gun.pressure_kPa, flow: 1 };
	w.cup = [];
	w.cup_mL = 0;
	w.spare_mL = 0;
	opened(w);
	const before = job.faces[0]?.coats.filter(plan => plan.stage < stage).length ?? 0;
	const coats = job.faces[0]?.coats.filter(plan => plan.stage === stage).length ?? 0;
	for (let nth = 0; nth < coats; nth++) {
		const coat = before + nth + 1;
		say(w, {
			type: 'day.planned',
			stage,
			coat: nth + 1,
			faces: job.faces.map(face => face.id),
			order: 'sheet',
		});
		if (nth > 0 && (w.w.now - w.airAt > 3 * 3600_000 || random.chance(0.5))) airAgain(w);
		for (const [index, face] of job.faces.entries()) {
			const later = job.faces.slice(index).reduce((sum, one) => sum + planOf(one, coat).volume_mL, 0);
			turnOf(w, { face, coat, nth, index, plant }, later * 1.15 + 60);
		}
	}
	const extra = plant?.variant === 'extra' ? job.faces[plant.index] : undefined;
	if (extra) {
		const coat = before + coats + 1;
		override(w, 'count', extra, coat);
		const laid = { ...usual(), extra: true, overrides: ['count'] };
		const turn = { face: extra, coat, nth: coats, index: 0, plant: null };
		flash(w, turn, laid);
		ready(w, turn, planOf(extra, coat).volume_mL, 200);
		spray(w, extra, coat, laid);
	}
	say(w, { type: 'cup.emptied', volume_mL: Math.max(0, Math.round(w.cup_mL)), why: 'end of the day' });
	say(w, { type: 'gun.unknown', why: 'cleaned' });
	w.w.pass(random.between(300, 900));
	say(w, { type: 'day.closed', job: job.name, why: 'done' });
	return w.w.records;
}

/** Reads the air between coats; what has drifted out of the limits is seen and put right. */
function airAgain(w: World): void {
	readAir(w);
	const { airC, humidity } = w.air;
	if (humidity <= 0.8 && airC >= 15 && airC <= 32) return;
	w.w.pass(600);
	w.air = { airC: 21, humidity: 0.55, surfaceC: 20 };
	readAir(w);
}
