import type { Face, Window } from '../../../src/job/job.ts';
import type { Hidden } from './truth.ts';
import { materialOf, planOf, say, standing, type World } from './world.ts';
import { iso } from './writer.ts';

/** What is unusual about laying one coat on one face. */
export type Laid = {
	/** Time that the trigger is pulled ÷ time wanted. */
	slow: number;
	/** Film beyond what time and flow explain: gun held too near or too far. */
	near: number;
	/** Need for a longer flash that nobody knows of. */
	need: number;
	extent: 'all' | 'part' | 'none';
	from: 'start' | 'part';
	missed: boolean;
	extra: boolean;
	dirty: boolean;
	shut: boolean;
	window: Window;
	overrides: string[];
};

export const usual = (): Laid => ({
	slow: 1,
	near: 1,
	need: 1,
	extent: 'all',
	from: 'start',
	missed: false,
	extra: false,
	dirty: false,
	shut: false,
	window: 'spray',
	overrides: [],
});

/** What is really so as the first stroke falls. */
function hidden(world: World, face: Face, coat: number, laid: Laid): Hidden {
	const plan = planOf(face, coat);
	const material = materialOf(world, plan);
	const { gun } = world;
	const fan = (((face.tilt + (gun.horns === 'level' ? 0 : 90)) % 180) + 180) % 180;
	const wanted = plan.stroke === 'side-to-side' ? 0 : 90;
	const batches = world.cup.map(letter => world.batches.get(letter)).filter(batch => batch !== undefined);
	const before = standing(world, face);
	const sameDay = before.ended !== null && before.day === world.day;
	const least = (of: (batch: (typeof batches)[number]) => number) => Math.min(...batches.map(of));
	return {
		fanAlong: fan !== wanted,
		bad: gun.bad,
		pressure: gun.pressure_kPa / world.job.gun.pressure_kPa,
		hardener: least(batch => batch.hardener),
		reducer: Math.max(...batches.map(batch => batch.reducer)),
		rightCans: batches.every(batch => batch.rightCans),
		stood: batches.every(batch => batch.stood),
		seconds: batches[0]?.seconds ?? 20,
		age: (world.w.now - least(batch => batch.mixed)) / (material.potLife.hours * 3600_000),
		humidity: world.air.humidity,
		airC: world.air.airC,
		wait:
			sameDay && before.ended !== null && laid.from === 'start' && !laid.extra
				? (world.w.now - before.ended) / (material.flash.min_min * 60_000 * laid.need)
				: null,
		shut: laid.shut,
		film: laid.slow * laid.near * gun.flow,
		missed: laid.missed,
		extra: laid.extra,
		clean: !laid.dirty,
		snagged: false,
	};
}

/**
 * From START to FINISHED: the way to the work, the pulls with a turn after each, the way back. Only a trigger line
 * knows which of it was which.
 */
function pulled(world: World, face: Face, coat: number, trigger_s: number): void {
	const { random, w } = world;
	const { spray_s } = planOf(face, coat);
	const due = w.now + 1000 * (spray_s + 2 * Math.min(60, Math.max(15, spray_s / 2)));
	const pass = (seconds: number) => {
		const left = (due - w.now) / 1000;
		const runsOver = left >= 0 && seconds > left;
		if (runsOver) {
			w.pass(left);
			say(world, { type: 'face.late', face: face.id, coat });
		}
		w.pass(runsOver ? seconds - left : seconds);
	};
	const pulls = random.whole(2, 7);
	pass(random.between(2, 10));
	for (let nth = 0; nth < pulls; nth++) {
		if (world.line) say(world, { type: 'trigger.on' });
		pass(trigger_s / pulls);
		if (world.line) say(world, { type: 'trigger.off' });
		pass(random.between(0.4, 0.8));
	}
	pass(random.between(2, 10));
}

/** Lays one coat on one face; may leave the gun in another state half way. */
export function spray(world: World, face: Face, coat: number, laid: Laid): void {
	const plan = planOf(face, coat);
	const { random, w } = world;
	const truth = hidden(world, face, coat, laid);
	const began = w.now;
	say(world, {
		type: 'face.started',
		face: face.id,
		coat,
		cup: [...world.cup],
		check: world.check,
		air: world.airSeq,
		overrides: laid.overrides,
		window: laid.window,
		from: laid.from,
		spray_s: plan.spray_s,
	});
	const share = laid.extent === 'part' ? 0.4 : laid.extent === 'none' ? 0.05 : 1;
	pulled(world, face, coat, plan.spray_s * laid.slow * share * random.between(0.88, 1.12));
	say(world, {
		type: 'face.ended',
		face: face.id,
		coat,
		extent: laid.extent,
		lastStroke: laid.extent === 'part' ? random.whole(1, 6) : null,
		estimated: false,
	});
	const material = materialOf(world, plan);
	if (laid.extent === 'all')
		say(world, {
			type: 'window.set',
			face: face.id,
			coat,
			surfaceC: world.air.surfaceC,
			windows: [
				{ does: 'wait', from: iso(w.now), until: iso(w.now + material.flash.min_min * 60_000) },
				{
					does: 'spray',
					from: iso(w.now + material.flash.min_min * 60_000),
					until: iso(w.now + (material.flash.max_min ?? 240) * 60_000),
				},
				{ does: 'sand', from: iso(w.now + (material.flash.max_min ?? 240) * 60_000), until: null },
			],
		});
	world.cup_mL -= plan.volume_mL * share * laid.slow * world.gun.flow;
	world.sprayed.push({
		face: face.id,
		coat,
		day: world.day,
		began,
		ended: w.now,
		cup: [...world.cup],
		hidden: truth,
	});
	const state = standing(world, face);
	if (laid.extent !== 'none') Object.assign(state, { ended: w.now, coats: coat, day: world.day });
	if (laid.extent === 'all' && random.chance(0.06))
		say(world, {
			type: 'film.read',
			face: face.id,
			coat,
			wet_um: Math.round(wetWanted(world, face, coat) * truth.film * random.between(0.93, 1.07)),
			by: 'comb',
		});
	w.pass(random.between(4, 15));
}

/** Wet film that a coat asks for, µm: dry film over the solids of the reduced mix. */
export function wetWanted(world: World, face: Face, coat: number): number {
	const material = materialOf(world, planOf(face, coat));
	const parts = material.ratio.base + material.ratio.hardener;
	const solids = (material.solids * parts) / (parts + material.reducer_parts);
	return (material.coats.full?.dry_um ?? 38) / solids;
}
