import { spotKey } from './causes.ts';
import { given } from './habits.ts';
import type { Pass } from './hidden.ts';
import type { Plan, Scheme } from './schemes.ts';

/** Causes of the hand: how far, how fast, how often; and what was left undone on a part. */

/** What a pass of it is like. */
function habitOf({ cause, lots }: Plan): ((pass: Pass) => void) | null {
	switch (cause.code) {
		case 'gun-too-near': {
			const distance = lots.between(0.5, 0.75, 'far');
			return pass => {
				pass.distance = distance;
			};
		}
		case 'gun-too-far': {
			const distance = lots.between(1.3, 1.9, 'far');
			return pass => {
				pass.distance = distance;
			};
		}
		case 'film-too-heavy': {
			const film = lots.between(1.35, 1.9, 'film');
			return pass => {
				pass.film = film;
			};
		}
		case 'film-too-light': {
			const film = lots.between(0.4, 0.7, 'film');
			return pass => {
				pass.film = film;
			};
		}
		default:
			return null;
	}
}

/** A face that is hard to reach, in all its coats; a part; or a spell of haste or care, a few passes long. No source. */
function reachOf({ lots, job, count }: Plan): (pass: Pass) => boolean {
	const face = lots.pick(job.faces, 'face');
	const from = lots.below(count, 'where');
	const long = 2 + lots.below(4, 'long');
	const kind = lots.pick(['face', 'part', 'spell', 'spell'], 'reach');
	if (kind === 'face') return pass => pass.face === face.id;
	if (kind === 'part') return pass => pass.face.startsWith(`${face.part}/`);
	return ({ nth }) => nth >= from && nth < from + long;
}

/** One face, or it and the next on its part, missed or gone over twice; often after a call. */
function countScheme({ cause, lots, count }: Plan): Scheme {
	const where = lots.below(count, 'where');
	const isMissed = cause.code === 'face-missed';
	const calls = lots.is(0.6, 'call');
	const again = !isMissed && lots.is(0.5, 'again');
	let called = false;
	let restarts = false;
	let twice = '';
	return {
		begins(pass) {
			if (again) {
				if (twice === spotKey(pass)) pass.times = 2;
			} else if (pass.nth === where) pass.times = isMissed ? 0 : 2;
		},
		keys(line, { passes, state }) {
			const here = passes.length <= where && passes.length > where - 3;
			if (!again && calls && here && !called && line.state === 'ready') {
				called = true;
				return ['hold', `wait ${1 + lots.below(12, 'away')} min`, 'back'];
			}
			const alone = state.book.stretch.length === 1 && passes.length > where;
			if (again && alone && !called && line.ask === 'spraying') {
				called = true;
				restarts = true;
				return [
					`wait ${20 + lots.below(60, 'on')} s`,
					'hold',
					`wait ${1 + lots.below(6, 'away')} min`,
					'back',
				];
			}
			if (restarts && line.ask === 'last-face') {
				restarts = false;
				twice = spotKey({ face: line.face ?? '', coat: line.coat ?? 0 });
				return ['none'];
			}
			return null;
		},
	};
}

/** Not wiped, on a part or on all: keyed all the same, or left out with a reason. */
function surfaceScheme({ lots, job }: Plan): Scheme {
	const part = lots.pick(job.parts, 'part').name;
	const saysSo = lots.is(given.saysSo, 'says');
	let left = false;
	return {
		begins(pass) {
			const isHere = pass.face.startsWith(`${part}/`) && pass.coat === 1;
			if (isHere && (!saysSo || left)) pass.isClean = false;
		},
		keys({ state }) {
			if (!saysSo || left || state !== 'prep.wipe') return null;
			left = true;
			return job.parts.length > 1 ? ['part-by-part', part, 'skip', 'owner'] : ['skip', 'owner'];
		},
	};
}

/** Touched between two coats or after the last, on a face or two of a part; seen, and said, as a sleeve on the wet coat. */
function touchScheme({ lots, job }: Plan): Scheme {
	const face = lots.pick(job.faces, 'face');
	const coat = 1 + lots.below(face.coats.length, 'coat');
	const isWide = lots.is(0.4, 'wide');
	const saysSo = lots.is(given.saysSo, 'says');
	let isSaid = false;
	return {
		begins(pass) {
			const isHere = pass.face === face.id || (isWide && pass.face.startsWith(`${face.part}/`));
			if (isHere && pass.coat === coat) pass.wasTouched = true;
		},
		keys({ state, corners }, { passes }) {
			const isOn = passes.some(({ wasTouched }) => wasTouched);
			const mayTell = Object.values(corners).some(({ code }) => code === 'trouble');
			if (isSaid || !saysSo || !isOn || !mayTell || (state !== 'ready' && state !== 'wait')) return null;
			isSaid = true;
			return ['trouble', 'wet-fault', 'hose', face.id, 'keep-on'];
		},
	};
}

export function handScheme(plan: Plan): Scheme | null {
	const { code } = plan.cause;
	if (code === 'face-missed' || code === 'too-many-coats') return countScheme(plan);
	if (code === 'surface') return surfaceScheme(plan);
	if (code === 'handling') return touchScheme(plan);
	const habit = habitOf(plan);
	if (!habit) return null;
	const reaches = reachOf(plan);
	return {
		begins(pass) {
			if (reaches(pass)) habit(pass);
		},
	};
}
