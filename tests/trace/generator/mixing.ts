import type { Component } from '../../../src/job/job.ts';
import { breakFor, override, say, type World } from './world.ts';

/** How one batch goes wrong, and how that is written down. */
export type MixUp = {
	hardener?: number;
	reducer?: number;
	/** The hardener's level is never read. */
	unread?: true;
	/** A can with another mark is in the hand: read as it is, or keyed from habit. */
	can?: { of: Component; how: 'read' | 'habit' };
	/** Somebody came between the hardener and the reducer. */
	broken?: true;
	stood?: 'early' | 'never';
	seconds?: number;
	untimed?: true;
};

/** The marks taped on the cans of the day. */
export const marks: Record<Component, string> = {
	base: 'ring',
	hardener: 'cross',
	reducer: 'two bars',
	accelerator: 'wave',
	flattener: 'fork',
};
const letterOf = (count: number): string =>
	count < 26
		? String.fromCharCode(65 + count)
		: letterOf(Math.floor(count / 26) - 1) + String.fromCharCode(65 + (count % 26));

type Poured = { component: Component; level_mL: number; wanted_mL: number; share: number };

function pour(world: World, letter: string, poured: Poured, up: MixUp): void {
	const { random } = world;
	const { component, share } = poured;
	const bad = up.can?.of === component;
	const mark = marks[component];
	const said = bad && up.can?.how === 'read' ? 'dot' : mark;
	const slip = !bad && random.chance(0.03);
	const reading = (value: string, attempt: number) =>
		say(world, {
			type: 'reading.taken',
			feature: 'can',
			value,
			wanted: mark,
			matched: value === mark,
			attempt,
			check: null,
			face: null,
			coat: null,
			batch: letter,
		});
	if (slip) reading('dot', 1);
	reading(said, slip ? 2 : 1);
	if (said !== mark) override(world, 'can', null, null);
	world.w.pass(random.between(20, 50));
	if (component === 'hardener' && up.unread) return;
	const found = Math.abs(share - 1) < 0.03 ? 'right' : share < 1 ? 'short' : 'over';
	say(world, {
		type: 'batch.poured',
		batch: letter,
		component,
		can: said,
		level_mL: Math.round(poured.level_mL),
		wanted_mL: Math.round(poured.wanted_mL),
		found,
	});
}

/** Mixes one batch in the data sheet's order; nobody reads a level that is not there. */
export function mix(world: World, materialId: string, make_mL: number, up: MixUp = {}): string {
	const { random, w } = world;
	const material = world.job.materials[materialId];
	if (!material) throw new Error(`no material ${materialId}`);
	const letter = letterOf(world.batches.size);
	const parts = {
		base: material.ratio.base,
		hardener: material.ratio.hardener,
		reducer: material.reducer_parts,
	};
	const whole = parts.base + parts.hardener + parts.reducer;
	const share = { base: 1, hardener: up.hardener ?? 1, reducer: up.reducer ?? 1 };
	say(world, {
		type: 'batch.started',
		batch: letter,
		material: materialId,
		ratio: parts,
		by: 'volume',
		make_mL,
	});
	let level = 0;
	if (up.hardener === undefined && random.chance(0.06)) share.hardener = random.between(0.9, 0.96);
	if (up.reducer === undefined && random.chance(0.06)) share.reducer = random.between(1.05, 1.3);
	const stopped = up.broken === true || random.chance(0.05);
	let mixed = w.now;
	for (const step of material.order) {
		w.pass(random.between(5, 15));
		if (step === 'stir' || step === 'strain') say(world, { type: 'batch.stepped', batch: letter, step });
		if (step === 'base' || step === 'hardener' || step === 'reducer') {
			if (step === 'reducer' && stopped) mixBreak(world, letter, level, share.reducer);
			const wanted_mL = level + (make_mL * parts[step]) / whole;
			level += (make_mL * parts[step] * share[step]) / whole;
			pour(world, letter, { component: step, level_mL: level, wanted_mL, share: share[step] }, up);
			if (step === 'hardener') mixed = w.now;
		}
		if (step === 'stand' && up.stood !== 'never') {
			w.pass(
				(up.stood === 'early' ? random.between(4, 12) : material.standing_min + random.between(0, 4)) * 60,
			);
			say(world, { type: 'batch.stood', batch: letter });
		}
		if (step === 'stand' && up.stood === 'never') override(world, 'stood', null, null);
		if (step === 'cup' && !up.untimed) timed(world, letter, up.seconds);
	}
	say(world, { type: 'batch.ready', batch: letter, volume_mL: make_mL });
	world.batches.set(letter, {
		letter,
		material: materialId,
		mixed,
		hardener: share.hardener,
		reducer: share.reducer,
		rightCans: up.can === undefined,
		stood: up.stood === undefined,
		seconds: up.seconds ?? 20,
		mL: make_mL,
	});
	return letter;
}

function mixBreak(world: World, letter: string, level: number, reducer: number): void {
	breakFor(world, world.random.between(60, 400));
	say(world, {
		type: 'batch.found',
		batch: letter,
		level_mL: Math.round(level),
		found: reducer === 1 && world.random.chance(0.7) ? 'before' : 'unknown',
		component: 'hardener',
	});
}

/** Times the cup; a slight miss is passed over with a reason and does no harm. */
function timed(world: World, letter: string, planted: number | undefined): void {
	const { random } = world;
	const slight = planted === undefined && random.chance(0.05) ? random.pick([17, 23]) : undefined;
	const seconds = planted ?? slight ?? random.between(18.5, 21.5);
	const fits = seconds >= 18 && seconds <= 22;
	say(world, {
		type: 'cup.timed',
		batch: letter,
		cup: 'ford4',
		seconds: Math.round(seconds * 2) / 2,
		tempC: 21,
		fits,
	});
	if (!fits) override(world, 'viscosity', null, null);
}

/** Fills the gun's cup from what is mixed, or mixes. */
export function fill(world: World, materialId: string, want_mL: number, up?: () => MixUp | undefined) {
	const cup = world.job.gun.cup_mL;
	if (world.spare_mL > 0) {
		const batch = world.cup[world.cup.length - 1] ?? 'A';
		const load = Math.min(world.spare_mL, cup - world.cup_mL);
		say(world, { type: 'gun.unknown', why: 'refill' });
		say(world, { type: 'batch.loaded', batch, volume_mL: Math.round(load), refill: true });
		world.cup_mL += load;
		world.spare_mL -= load;
		return 'refill';
	}
	if (world.cup.length > 0)
		say(world, {
			type: 'cup.emptied',
			volume_mL: Math.max(0, Math.round(world.cup_mL)),
			why: 'too little for the next face',
		});
	const make = Math.ceil(Math.min(1000, Math.max(300, want_mL)) / 50) * 50;
	const letter = mix(world, materialId, make, up?.());
	say(world, { type: 'gun.unknown', why: 'batch' });
	const load = Math.min(make, cup);
	say(world, { type: 'batch.loaded', batch: letter, volume_mL: load, refill: false });
	world.cup = [letter];
	world.cup_mL = load;
	world.spare_mL = make - load;
	return 'batch';
}
