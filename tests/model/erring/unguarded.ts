import type { Face, Job } from '../../../src/job/job.ts';
import type { Draws, Where } from './draws.ts';
import { oldPot, type Truth, truthOf } from './truth.ts';

/**
 * A day of the same job, faces and slips without the program: by memory alone, or with a list whose questions are
 * answered YES or NO. Nothing is read back and nothing is counted, so nothing of the engine is needed.
 *
 * With the list, a question stands where the program would check: at each can, at the hardener, at each cup filled,
 * before the first face of a coat, and at each turn of the cap. Who looks sees what is wrong, unless it is misread, and puts it right.
 */

type Day = { job: Job; draws: Draws; list: 'none' | 'yes-no'; truth: Truth; believed: string };

/** Whether something wrong is noticed: at a question, or where none is asked by a look of his own. */
function noticed({ draws, list }: Day, item: string, ...where: Where): boolean {
	const { slips } = draws;
	const at = [item, ...where] as const;
	const asked = !slips('habit', ...at) && !slips('suggests', ...at) && !slips('doubleHits', ...at);
	const looks = list === 'yes-no' ? asked : slips('unasked', ...at);
	return looks && !slips('misreads', ...at);
}

function mix(day: Day, nth: number): void {
	const { draws, truth } = day;
	const letter = letterOf(nth);
	const wrongCan = draws.slips('wrongCan', letter, 'hardener', 1);
	const lost = draws.slips('walks', 'mix', letter) && draws.slips('losesPlace', 'mix', letter);
	const left = draws.slips('forgets', letter, 1) || lost;
	const can = !wrongCan || noticed(day, 'can', letter, 'hardener', 1);
	const poured = !left || noticed(day, 'level', letter, 'hardener', 1);
	truth.pot(letter).hardener = can && poured;
}

const letterOf = (nth: number) => String.fromCharCode(oldPot.charCodeAt(0) + nth);

function load(day: Day, nth: number, first: Face, coat: number): void {
	const { draws, truth } = day;
	const wrong = draws.slips('wrongPot', letterOf(nth), 1) && !noticed(day, 'batch', first.id, coat, 1);
	truth.cup.push(truth.pot(wrong ? oldPot : letterOf(nth)));
}

const other = (horns: Truth['world']['horns']) => (horns === 'level' ? 'upright' : 'level');

function turnCap(day: Day, face: Face, coat: number, first: boolean): void {
	const { draws, truth } = day;
	const wanted = face.coats[coat - 1]?.horns ?? 'level';
	const turns = day.believed !== wanted;
	if (turns && !draws.slips('leavesTurned', face.id, coat, 1)) truth.world.horns = wanted;
	day.believed = wanted;
	if (turns || first) truth.turnedSince = false;
	const isWrong = truth.world.horns !== wanted;
	if (isWrong && (turns || first) && noticed(day, 'pattern', face.id, coat, 1)) truth.world.horns = wanted;
}

/** Away: somebody may turn the cap, and the place may be lost. */
function away({ draws, truth }: Day, ...where: Where): 'again' | 'left-out' | null {
	if (!draws.slips('walks', ...where)) return null;
	if (draws.slips('someoneTurns', ...where)) {
		truth.world.horns = other(truth.world.horns);
		truth.turnedSince = true;
	}
	if (!draws.slips('losesPlace', ...where)) return null;
	return draws.slips('repeats', ...where) ? 'again' : 'left-out';
}

function sprayFace(day: Day, face: Face, coat: number, before: Face | undefined): void {
	const { truth } = day;
	const lost = away(day, 'ready', face.id, coat);
	if (lost === 'left-out') return;
	if (lost === 'again' && before) truth.spray(before, coat, 1);
	truth.spray(face, coat, 0.5);
	const place = away(day, 'face', face.id, coat);
	if (place === 'again') truth.spray(face, coat, 0.5);
	if (place !== 'left-out') truth.spray(face, coat, 0.5);
}

/** Plays the day and says what really happened. */
export function unguardedDay(job: Job, draws: Draws, list: Day['list']): Truth {
	let meant: string[] = [];
	const day: Day = { job, draws, list, truth: truthOf(job, () => meant), believed: 'level' };
	const rounds = Math.max(...job.faces.map(({ coats }) => coats.length));
	for (let coat = 1; coat <= rounds; coat++) {
		if (coat > 1 && draws.slips('someoneTurns', 'wait', coat))
			day.truth.world.horns = other(day.truth.world.horns);
		mix(day, coat);
		const first = job.faces[0];
		meant = [...meant, letterOf(coat)];
		if (first) load(day, coat, first, coat);
		for (const [index, face] of job.faces.entries()) {
			turnCap(day, face, coat, index === 0);
			sprayFace(day, face, coat, job.faces[index - 1]);
		}
	}
	day.truth.end(face => face.coats.length);
	return day.truth;
}
