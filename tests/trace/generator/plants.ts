import type { Face } from '../../../src/job/job.ts';
import { gunCheck } from './gun-check.ts';
import type { MixUp } from './mixing.ts';
import type { Random } from './random.ts';
import type { Laid } from './spraying.ts';
import { breakFor, override, planOf, readAir, say, type World } from './world.ts';

/** Where in the work a cause is put in, and how it is, or is not, written down. */
export type Plant = {
	cause: string;
	variant: string;
	/** `topcoat`: the day of the topcoats; `primer`: the day before. */
	stage: 'primer' | 'topcoat';
	/** Nth coat of that day, and nth face of it, from 0. */
	nth: number;
	index: number;
	/** How many faces from there share it, where it is a matter of the face. */
	faces: number;
	/** Before the gun is made ready for the face. */
	before?(world: World, face: Face, coat: number): void;
	/** Between the check and the first stroke; nothing is written. */
	slip?(world: World): void;
	/** Instead of the wait for the flash. */
	rush?: boolean;
	/** The touch test is left out. */
	untouched?: boolean;
	lay?(laid: Laid, world: World, face: Face, coat: number): void;
	mixUp?: MixUp;
	/** After the face. */
	after?(world: World, face: Face, coat: number): void;
	/** The end of what came and went by itself: after this many faces. */
	over?: { after: number; undo(world: World): void };
	prep?: 'unsaid' | 'ticked';
	unmask?: 'late' | 'snag';
};

type Base = Pick<Plant, 'stage' | 'nth' | 'index' | 'faces'>;
type Maker = (random: Random, base: Base) => Omit<Plant, 'cause' | keyof Base> & Partial<Base>;

const flip = (world: World) => {
	world.gun.horns = world.gun.horns === 'level' ? 'upright' : 'level';
};

/** A break after which the check leaves out what would have shown it. */
const unread =
	(change: (world: World) => void, features: string[]) => (world: World, face: Face, coat: number) => {
		breakFor(world, world.random.between(60, 900), () => change(world));
		override(world, 'gun-check', face, coat);
		for (const feature of features) world.skip.add(feature);
	};

/** A knob turned for this face, cleared by a short check that does not read it. */
const knob =
	(change: (world: World) => void, set: { pressure_kPa: number | null; fluid: string | null }) =>
	(world: World, face: Face, coat: number) => {
		change(world);
		say(world, { type: 'gun.unknown', why: 'knob' });
		if (world.random.chance(0.7)) say(world, { type: 'gun.set', horns: null, fanHeight_mm: null, ...set });
		if (planOf(face, coat).horns === world.gun.horns) gunCheck(world, 'short', face, coat);
	};

const habit = (change: (world: World) => void) => (world: World) => {
	breakFor(world, world.random.between(60, 900), () => change(world));
	world.habit = true;
};

const gunSees = ['pattern', 'horns', 'flooded', 'pattern-height'];

const makers: Record<string, Record<string, Maker>> = {
	'fan-along-stroke': {
		slip: () => ({ variant: 'slip', slip: flip }),
		break: () => ({ variant: 'break', before: unread(flip, ['pattern', 'horns']) }),
		turn: () => ({ variant: 'turn' }),
		habit: () => ({ variant: 'habit', before: habit(flip) }),
	},
	'bad-pattern': {
		slip: () => ({ variant: 'slip', slip: world => Object.assign(world.gun, { bad: true }) }),
		break: () => ({
			variant: 'break',
			before: unread(world => Object.assign(world.gun, { bad: true }), gunSees),
		}),
		habit: () => ({ variant: 'habit', before: habit(world => Object.assign(world.gun, { bad: true })) }),
	},
	'pressure-off': {
		slip: random => {
			const to = random.pick([random.between(110, 150), random.between(260, 320)]);
			return { variant: 'slip', slip: world => Object.assign(world.gun, { pressure_kPa: to }) };
		},
		break: random => {
			const to = random.pick([random.between(110, 150), random.between(260, 320)]);
			return {
				variant: 'break',
				before: unread(world => Object.assign(world.gun, { pressure_kPa: to }), ['gauge']),
			};
		},
		knob: random => {
			const to = random.pick([random.between(110, 150), random.between(260, 320)]);
			return {
				variant: 'knob',
				before: knob(world => Object.assign(world.gun, { pressure_kPa: to }), {
					pressure_kPa: 200,
					fluid: null,
				}),
			};
		},
	},
	'no-hardener': {
		unread: () => ({ variant: 'unread', mixUp: { hardener: 0, unread: true } }),
		short: () => ({ variant: 'short', mixUp: { hardener: 0.05 } }),
	},
	'wrong-can': {
		read: random => ({
			variant: 'read',
			mixUp: { can: { of: random.pick(['hardener', 'reducer'] as const), how: 'read' } },
		}),
		habit: random => ({
			variant: 'habit',
			mixUp: { can: { of: random.pick(['hardener', 'reducer'] as const), how: 'habit' } },
		}),
	},
	'wrong-ratio': {
		short: random => ({ variant: 'short', mixUp: { hardener: random.between(0.4, 0.75) } }),
		over: random => ({ variant: 'over', mixUp: { reducer: random.between(1.5, 2) } }),
		break: random => ({ variant: 'break', mixUp: { reducer: random.between(1.5, 2), broken: true } }),
	},
	'batch-too-old': {
		old: () => ({
			variant: 'old',
			before: (world, face, coat) => {
				const oldest = world.batches.get(world.cup[0] ?? '');
				const life = (world.job.materials[planOf(face, coat).material]?.potLife.hours ?? 2) * 3600_000;
				const until = (oldest?.mixed ?? world.w.now) + life * world.random.between(1.2, 1.5);
				breakFor(world, Math.max(600, (until - world.w.now) / 1000));
				override(world, 'life', face, coat);
			},
		}),
	},
	'not-stood': {
		early: () => ({ variant: 'early', stage: 'primer', nth: 0, mixUp: { stood: 'early' } }),
		never: () => ({ variant: 'never', stage: 'primer', nth: 0, mixUp: { stood: 'never' } }),
	},
	'viscosity-off': {
		shown: random => ({
			variant: 'shown',
			mixUp: { seconds: random.pick([random.between(11, 14), random.between(27, 34)]) },
		}),
		untimed: random => ({
			variant: 'untimed',
			mixUp: { seconds: random.pick([random.between(11, 14), random.between(27, 34)]), untimed: true },
		}),
	},
	'air-out-of-limits': Object.fromEntries(
		(['read', 'drift', 'unread'] as const).map(variant => [
			variant,
			(random: Random) => {
				const air = random.pick([
					{ airC: 21, humidity: random.between(0.88, 0.95), surfaceC: 20 },
					{ airC: random.between(7, 11), humidity: 0.6, surfaceC: 9 },
					{ airC: random.between(36, 40), humidity: 0.4, surfaceC: 36 },
				]);
				const change = (world: World) => {
					world.air = { ...air };
				};
				const undo = (world: World) => {
					world.air = { airC: 21, humidity: 0.55, surfaceC: 20 };
				};
				if (variant === 'read')
					return {
						variant,
						before: (world: World, face: Face, coat: number) => {
							change(world);
							readAir(world);
							override(world, 'air', face, coat);
						},
					};
				return {
					variant,
					slip: change,
					...(variant === 'unread' && { over: { after: random.whole(1, 3), undo } }),
				};
			},
		]),
	),
	'coat-too-early': {
		rush: random => ({ variant: 'rush', nth: 1, index: 0, faces: random.whole(1, 4), rush: true }),
		cold: random => ({
			variant: 'cold',
			untouched: true,
			nth: 1,
			index: 0,
			faces: random.whole(1, 4),
			lay: laid => Object.assign(laid, { need: 2.5 }),
		}),
	},
	'window-missed': {
		long: random => ({
			variant: 'long',
			nth: 1,
			faces: random.whole(1, 4),
			before: world => breakFor(world, world.random.between(5, 7) * 3600),
			lay: laid => {
				laid.shut = true;
				laid.window = 'sand';
			},
		}),
		unsanded: random => ({ variant: 'unsanded', nth: 0, faces: random.whole(1, 4), prep: 'unsaid' }),
		ticked: random => ({ variant: 'ticked', nth: 0, faces: random.whole(1, 4), prep: 'ticked' }),
	},
	'film-too-heavy': {
		slow: random => {
			const slow = random.between(1.75, 2.6);
			return { variant: 'slow', faces: random.whole(1, 2), lay: laid => Object.assign(laid, { slow: slow }) };
		},
		knob: random => {
			const flow = random.between(1.7, 2.2);
			return {
				variant: 'knob',
				before: knob(world => Object.assign(world.gun, { flow: flow }), {
					pressure_kPa: null,
					fluid: 'two turns open',
				}),
			};
		},
		near: random => ({
			variant: 'near',
			faces: random.whole(1, 2),
			lay: laid => Object.assign(laid, { near: 1.8 }),
		}),
	},
	'film-too-light': {
		fast: random => {
			const slow = random.between(0.3, 0.5);
			return { variant: 'fast', faces: random.whole(1, 2), lay: laid => Object.assign(laid, { slow: slow }) };
		},
		knob: random => {
			const flow = random.between(0.35, 0.52);
			return {
				variant: 'knob',
				before: knob(world => Object.assign(world.gun, { flow: flow }), {
					pressure_kPa: null,
					fluid: 'half a turn open',
				}),
			};
		},
		far: random => ({
			variant: 'far',
			faces: random.whole(1, 2),
			lay: laid => Object.assign(laid, { near: 0.5 }),
		}),
	},
	'face-missed': {
		none: () => ({
			variant: 'none',
			faces: 1,
			lay: laid => Object.assign(laid, { missed: true, extent: 'none' }),
		}),
		part: () => ({
			variant: 'part',
			faces: 1,
			lay: laid => Object.assign(laid, { missed: true, extent: 'part' }),
		}),
		ticked: () => ({ variant: 'ticked', faces: 1, lay: laid => Object.assign(laid, { missed: true }) }),
	},
	'too-many-coats': {
		again: () => ({ variant: 'again', faces: 1, lay: laid => Object.assign(laid, { extent: 'part' }) }),
		extra: () => ({ variant: 'extra', faces: 1 }),
	},
	surface: {
		unsaid: random => ({
			variant: 'unsaid',
			faces: random.whole(1, 3),
			nth: 0,
			lay: laid => Object.assign(laid, { dirty: true }),
		}),
		touch: random => ({
			variant: 'touch',
			faces: random.whole(1, 3),
			lay: laid => Object.assign(laid, { dirty: true }),
		}),
	},
	handling: {
		late: () => ({ variant: 'late', faces: 1, unmask: 'late' }),
		snag: () => ({ variant: 'snag', faces: 1, unmask: 'snag' }),
	},
};

export const causes = Object.keys(makers);

/** Chooses one true cause, one way it came about, and where. */
export function plant(random: Random, faces: number, topcoats: number, primer: boolean): Plant {
	const cause = random.pick(causes.filter(code => primer || code !== 'not-stood'));
	const ways = makers[cause] ?? {};
	const names = Object.keys(ways).filter(
		name => primer || (name !== 'unsanded' && name !== 'ticked') || cause !== 'window-missed',
	);
	const way = ways[random.pick(names)];
	if (!way) throw new Error(`no way for ${cause}`);
	const stage = primer && random.chance(0.2) ? 'primer' : 'topcoat';
	const base: Base = {
		stage,
		nth: stage === 'primer' ? 0 : random.whole(0, topcoats - 1),
		index: random.whole(0, faces - 1),
		faces: faces * 3,
	};
	const made = way(random, base);
	const late = cause === 'coat-too-early' || cause === 'window-missed';
	return { ...base, ...(late && { stage: 'topcoat' as const }), ...made, cause };
}
