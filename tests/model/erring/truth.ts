import type { Face, Job } from '../../../src/job/job.ts';
import { patternOf, type World, worldOf } from '../../../src/painter/world.ts';

/** What has really happened on the bench and on the parts, which no list and no program sees. */

/** `turned since`: the fan lay along the stroke because somebody turned the cap after the last time it could be seen. */
export const wrongKinds = ['fan', 'turned since', 'batch', 'hardener', 'double', 'missed'] as const;
export type Wrong = (typeof wrongKinds)[number];

type Pot = { letter: string; hardener: boolean };

export type Truth = {
	world: World;
	/** Somebody turned the cap since the list or the check last asked for it. */
	turnedSince: boolean;
	/** What is in the gun's cup. */
	cup: Pot[];
	pot(letter: string): Pot;
	/** How much of coat n is on a face: 1 is the whole of it. */
	on(face: string, coat: number): number;
	/** Paint goes on, `share` of a whole coat, as coat n. */
	spray(face: Face, coat: number, share: number): void;
	/** Faces short of the coats that they are thought to have. */
	end(thought: (face: Face) => number): void;
	/** Passes begun. */
	passes(): number;
	/** Wrong passes, each named once: its kind, face and coat. */
	wrong: Map<Wrong, Set<string>>;
};

/** Half a coat too much is a double coat, half a coat too little a missed one. */
const half = 0.5;

/** Yesterday's pot, taped with the letter before today's first. */
export const oldPot = 'A';

/** @param meant letters of the batches that the cup is meant to hold */
export function truthOf(job: Job, meant: () => readonly string[], world = worldOf(job)): Truth {
	const pots = new Map<string, Pot>([[oldPot, { letter: oldPot, hardener: true }]]);
	const coats = new Map<string, number>();
	const wrong = new Map<Wrong, Set<string>>(wrongKinds.map(kind => [kind, new Set()]));
	const passes = new Set<string>();
	const on = (face: string, coat: number) => coats.get(`${face} ${coat}`) ?? 0;
	const truth: Truth = {
		world,
		turnedSince: false,
		cup: [],
		on,
		wrong,
		passes: () => passes.size,
		pot(letter) {
			const pot = pots.get(letter) ?? { letter, hardener: false };
			pots.set(letter, pot);
			return pot;
		},
		spray(face, coat, share) {
			const spot = `${face.id} ${coat}`;
			passes.add(spot);
			const is = (kind: Wrong, yes: boolean) => yes && wrong.get(kind)?.add(spot);
			const wanted = face.coats[coat - 1]?.stroke === 'side-to-side' ? 'tall' : 'wide';
			coats.set(spot, on(face.id, coat) + share);
			is(truth.turnedSince ? 'turned since' : 'fan', patternOf(world, face) !== wanted);
			is(
				'batch',
				truth.cup.some(({ letter }) => !meant().includes(letter)),
			);
			is(
				'hardener',
				truth.cup.some(({ hardener }) => !hardener),
			);
			is('double', on(face.id, coat) >= 1 + half);
		},
		end(thought) {
			for (const face of job.faces)
				for (let coat = 1; coat <= thought(face); coat++)
					if (on(face.id, coat) <= half) wrong.get('missed')?.add(`${face.id} ${coat}`);
		},
	};
	return truth;
}
