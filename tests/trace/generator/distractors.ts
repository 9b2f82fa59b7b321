import type { Face } from '../../../src/job/job.ts';
import { gunCheck } from './gun-check.ts';
import type { Laid } from './spraying.ts';
import { breakFor, override, planOf, readAir, say, type World } from './world.ts';

/**
 * What happens on any day and does no harm: breaks with their check, a knob tried and read again, a gun fault
 * mended, a face a little slow, air a little over its limit, rules passed over that have nothing to do with it.
 */
export function noise(w: World, face: Face, coat: number, laid: Laid): void {
	const { random } = w;
	laid.slow = random.chance(0.05) ? random.pick([random.between(1.2, 1.33), random.between(0.69, 0.8)]) : 1;
	if (random.chance(0.06)) breakFor(w, random.between(20, 1500));
	if (random.chance(0.015)) gunFault(w, face, coat);
	if (random.chance(0.03)) tried(w, face, coat);
	if (random.chance(0.012)) hurried(w, face, coat);
	if (random.chance(0.01)) override(w, random.pick(['earth', 'lights', 'floor']), face, coat);
	if (random.chance(0.01)) damp(w, face, coat);
	if (random.chance(0.01))
		say(w, {
			type: 'fault.seen',
			fault: random.pick(['insect', 'hose', 'fingerprint']),
			face: face.id,
			coat: Math.max(1, coat - 1),
		});
}

function gunFault(w: World, face: Face, coat: number): void {
	say(w, { type: 'fault.seen', fault: 'spit', gun: true, remedy: 'fluid tip tightened' });
	say(w, { type: 'gun.unknown', why: 'gun-fault' });
	w.believed.known = false;
	w.gun.bad = false;
	w.w.pass(w.random.between(60, 240));
	if (w.cup.length > 0 && planOf(face, coat).horns === w.gun.horns && !w.habit)
		gunCheck(w, 'full', face, coat);
}

function tried(w: World, face: Face, coat: number): void {
	if (w.cup.length === 0) return;
	say(w, { type: 'gun.unknown', why: 'knob' });
	w.believed.known = false;
	const size = w.random.chance(0.5) ? 'full' : 'short';
	if (planOf(face, coat).horns === w.gun.horns) gunCheck(w, size, face, coat);
}

/** A break after which the check is cut short, and nothing was wrong. */
function hurried(w: World, face: Face, coat: number): void {
	if (w.cup.length === 0 || w.habit || w.gun.bad || planOf(face, coat).horns !== w.gun.horns) return;
	breakFor(w, w.random.between(30, 600));
	override(w, 'gun-check', face, coat);
	for (const feature of ['pattern', 'horns', 'flooded', 'pattern-height', 'gauge'])
		if (w.random.chance(0.6)) w.skip.add(feature);
}

function damp(w: World, face: Face, coat: number): void {
	const { humidity } = w.air;
	if (humidity > 0.8) return;
	w.air.humidity = w.random.between(0.815, 0.855);
	readAir(w);
	override(w, 'air', face, coat);
	w.air.humidity = humidity;
}
