import type { ReadingFeature } from '../../../src/day/records.ts';
import type { Face, PlannedCoat } from '../../../src/job/job.ts';
import { planOf, say, type World } from './world.ts';

type Value = string | number;

/** What a true look at the gun would give, and what is wanted for the coming face. */
function look(world: World, feature: ReadingFeature, face: Face, coat: PlannedCoat): [Value, Value] {
	const { gun } = world;
	const turned = Math.abs(face.tilt) === 90;
	const shape = (horns: string) => ((horns === 'level') !== turned ? 'tall' : 'wide');
	switch (feature) {
		case 'pattern':
			return [gun.bad ? 'bad' : shape(gun.horns), shape(coat.horns)];
		case 'horns':
			return [gun.horns, coat.horns];
		case 'gauge':
			return [Math.round(gun.pressure_kPa / 5) * 5, world.job.gun.pressure_kPa];
		case 'pattern-height':
			return [Math.round((gun.bad ? 150 : 250) * Math.sqrt(gun.flow)), 250];
		case 'flooded':
			return [gun.bad ? 'uneven' : gun.flow > 1.3 ? 'long' : gun.flow < 0.75 ? 'short' : 'even', 'even'];
		case 'batch':
			return [world.cup.join(''), world.cup.join('')];
		default:
			return ['supplied-air', 'supplied-air'];
	}
}

const near = (value: Value, wanted: Value) =>
	typeof value === 'number' && typeof wanted === 'number'
		? Math.abs(value - wanted) <= wanted * 0.1
		: value === wanted;

/** Puts right what a differing reading showed. */
function mend(world: World, feature: ReadingFeature, coat: PlannedCoat): void {
	if (feature === 'pattern' || feature === 'horns') world.gun.horns = coat.horns;
	if (feature === 'pattern' || feature === 'flooded' || feature === 'pattern-height') world.gun.bad = false;
	if (feature === 'gauge') world.gun.pressure_kPa = world.job.gun.pressure_kPa;
	if (feature === 'flooded' || feature === 'pattern-height') world.gun.flow = 1;
}

function read(world: World, feature: ReadingFeature, face: Face, coat: number): void {
	const plan = planOf(face, coat);
	const habit = world.habit && (feature === 'pattern' || feature === 'horns' || feature === 'batch');
	for (let attempt = 1; attempt < 4; attempt++) {
		const [seen, wanted] = look(world, feature, face, plan);
		const value = habit ? wanted : seen;
		const matched = near(value, wanted);
		world.w.pass(world.random.between(4, 12));
		say(world, {
			type: 'reading.taken',
			feature,
			value,
			wanted,
			matched,
			attempt,
			check: world.check,
			face: face.id,
			coat,
			batch: feature === 'batch' ? (world.cup[0] ?? null) : null,
		});
		if (matched) return;
		mend(world, feature, plan);
	}
}

/** A gun check with its readings, as far as `world.skip` lets it. */
export function gunCheck(world: World, size: 'full' | 'short', face: Face, coat: number): void {
	const { random } = world;
	const second = random.pick(['horns', 'gauge', 'pattern-height', 'flooded'] as const);
	const features: ReadingFeature[] =
		size === 'short'
			? ['batch', 'pattern']
			: [
					'breathing',
					'batch',
					...(random.chance(0.5) && second !== 'gauge' ? ['gauge' as const] : []),
					second,
					'pattern',
				];
	const asked = features.filter(feature => !world.skip.has(feature));
	world.check += 1;
	say(world, {
		type: 'check.began',
		check: world.check,
		list: 'gun-check',
		size,
		items: asked,
		face: face.id,
		coat,
	});
	if (size === 'full')
		say(world, {
			type: 'item.answered',
			check: world.check,
			list: 'gun-check',
			item: 'extractor',
			answer: 'running',
			passed: true,
		});
	for (const feature of asked) read(world, feature, face, coat);
	const plan = planOf(face, coat);
	say(world, {
		type: 'gun.checked',
		check: world.check,
		size,
		face: face.id,
		coat,
		cup: [...world.cup],
		horns: plan.horns,
		tilt: face.tilt,
	});
	world.habit = false;
	world.skip.clear();
	world.believed = { horns: plan.horns, known: true };
}

/** A planned turn of the cap, with the check that clears it, or catches that it was not turned. */
export function capTurn(world: World, face: Face, coat: number): void {
	const plan = planOf(face, coat);
	say(world, { type: 'gun.unknown', why: 'cap-turn' });
	world.w.pass(world.random.between(10, 25));
	say(world, { type: 'gun.set', horns: plan.horns, pressure_kPa: null, fanHeight_mm: null, fluid: null });
	const averted = world.random.chance(0.06) && !world.habit;
	world.gun.horns = plan.horns;
	if (averted) world.gun.horns = plan.horns === 'level' ? 'upright' : 'level';
	gunCheck(world, 'short', face, coat);
}
