import type { DayEvent } from '../../../src/day/records.ts';
import type { Face, Horns, Job, Material, PlannedCoat } from '../../../src/job/job.ts';
import type { Random } from './random.ts';
import type { BatchTruth, Gun, Sprayed } from './truth.ts';
import type { Writer } from './writer.ts';

/** A painter, a gun and a shop on one day, with what is really so and what is written down. */
export type World = {
	random: Random;
	job: Job;
	day: number;
	w: Writer;
	gun: Gun;
	/** A switch on the air line tells of every pull. */
	line: boolean;
	/** What the painter takes for granted. */
	believed: { horns: Horns; known: boolean };
	cup: string[];
	cup_mL: number;
	/** Mixed and not yet in the cup, mL. */
	spare_mL: number;
	batches: Map<string, BatchTruth>;
	air: { airC: number; humidity: number; surfaceC: number };
	airSeq: number | null;
	airAt: number;
	check: number;
	faces: Map<string, { ended: number | null; coats: number; day: number; snagged: boolean }>;
	/** The next check is keyed from habit: the pattern, the horns and the letter are not looked at. */
	habit: boolean;
	/** What the next check leaves out. */
	skip: Set<string>;
	sprayed: Sprayed[];
};

export const say = (world: World, event: DayEvent) => world.w.write(event);

export function materialOf(world: World, coat: PlannedCoat): Material {
	const material = world.job.materials[coat.material];
	if (!material) throw new Error(`no material ${coat.material}`);
	return material;
}

export function standing(world: World, face: Face) {
	const found = world.faces.get(face.id);
	if (!found) throw new Error(`no face ${face.id}`);
	return found;
}

/** A break that is whole and over: nobody touched a thing, or `what` happened in it. */
export function breakFor(world: World, seconds: number, what?: () => void): void {
	const kind = world.random.pick(['hold', 'hold', 'suspend', 'restart', 'hangup'] as const);
	const by = kind === 'hold' ? 'painter' : 'program';
	say(world, { type: 'break.began', kind, by });
	say(world, { type: 'gun.unknown', why: kind === 'restart' ? 'restart' : 'break' });
	world.believed.known = false;
	what?.();
	world.w.pass(seconds);
	say(world, { type: 'break.ended', kind, by });
}

export function override(world: World, rule: string, face: Face | null, coat: number | null): void {
	const reason = world.random.pick(['no time left', 'looked right', 'as last week', 'cart is wanted']);
	say(world, { type: 'override.given', rule, reason, face: face?.id ?? null, coat });
}

const round = (value: number, step: number) => Math.round(value / step) * step;

/** Reads the air and writes it; what is out of the limits is said in the record. */
export function readAir(world: World): void {
	const { airC, humidity, surfaceC } = world.air;
	const reasons = [
		...(humidity > 0.8 ? ['humidity'] : []),
		...(airC < 15 || airC > 32 ? ['temperature'] : []),
	];
	const record = say(world, {
		type: 'air.read',
		airC: round(airC, 0.5),
		humidity: round(humidity, 0.01),
		surfaceC: round(surfaceC, 0.5),
		dewPointC: round(airC - (1 - humidity) * 20, 0.5),
		spray: reasons.length === 0,
		reasons,
	});
	world.airSeq = record.seq;
	world.airAt = world.w.now;
}

/** The plan of a coat; a coat too many is laid like the last. */
export function planOf(face: Face, coat: number): PlannedCoat {
	const plan = face.coats[Math.min(coat, face.coats.length) - 1];
	if (!plan) throw new Error(`no coats on ${face.id}`);
	return plan;
}
