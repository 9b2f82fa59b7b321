import type { Line } from '../../../src/day/rehearsal.ts';
import type { DayState } from '../../../src/day/state.ts';
import type { Face, Job } from '../../../src/job/job.ts';
import { keyFor } from '../../../src/painter/painter.ts';
import type { Draws, Where } from './draws.ts';
import type { ReadingHand } from './reading.ts';
import type { Truth } from './truth.ts';

/** Walks and passes of an erring painter: nobody keys anything when he walks away. */

export type Floor = {
	job: Job;
	draws: Draws;
	truth: Truth;
	reading: ReadingHand;
	state(): DayState;
};

/** Where a pass stands: how much of the coat is on, and what was done of it. */
type Pass = {
	face: Face;
	coat: number;
	left: number;
	step: 'first' | 'away' | 'second' | 'done';
	walked: boolean;
};

export function sprayingHand({ job, draws, truth, reading, state }: Floor) {
	let pass: Pass | null = null;
	const faceIn = (line: Line) => job.faces.find(({ id }) => id === line.face);

	/** While nobody looks, somebody turns the cap. */
	function someone(...where: Where): void {
		const { world } = truth;
		if (!draws.slips('someoneTurns', ...where)) return;
		world.horns = world.horns === 'level' ? 'upright' : 'level';
		truth.turnedSince = true;
	}

	/** Walks off before a face, once; null: stays. */
	function walkOff(line: Line): string | null {
		const at = ['ready', line.face ?? '', line.coat ?? 0] as const;
		if (reading.nextTry('walks', ...at) > 1 || !draws.slips('walks', ...at)) return null;
		someone(...at);
		return `wait ${draws.walk_s(...at)} s`;
	}

	function begin(line: Line): Pass | null {
		const face = faceIn(line);
		if (!face) return null;
		const from = state().book.faces.get(face.id)?.pass?.from;
		return { face, coat: line.coat ?? 1, left: from === 'part' ? 0.5 : 1, step: 'first', walked: false };
	}

	const halfTime = (one: Pass) =>
		`wait ${Math.max(1, Math.round((one.face.coats[0]?.spray_s ?? 60) * 0.5))} s`;

	/** The next line while a face is sprayed: half of what is left, perhaps a walk, the rest, and FINISHED. */
	function spray(line: Line): string {
		pass ??= begin(line);
		if (!pass) return keyFor(line, 'finished');
		const { face, coat } = pass;
		const at = ['face', face.id, coat] as const;
		if (pass.step === 'first') {
			truth.spray(face, coat, pass.left / 2);
			pass = { ...pass, left: pass.left / 2, step: 'away' };
			return halfTime(pass);
		}
		if (pass.step === 'away') {
			pass = { ...pass, step: 'second' };
			if (reading.nextTry('walks', ...at) === 1 && draws.slips('walks', ...at)) {
				pass.walked = true;
				someone(...at);
				return `wait ${draws.walk_s(...at)} s`;
			}
		}
		if (pass.step === 'second') {
			const lost = pass.walked && draws.slips('losesPlace', ...at);
			const again = lost && draws.slips('repeats', ...at);
			if (again) truth.spray(face, coat, 0.5);
			if (!lost || again) truth.spray(face, coat, pass.left);
			pass = { ...pass, left: 0, step: 'done' };
			return halfTime(pass);
		}
		return keyFor(line, 'finished');
	}

	/** How much is on, as it is remembered: looked at, unless the place is lost. */
	function lastFace(line: Line): string {
		const done = pass ? truth.on(pass.face.id, pass.coat) : 0;
		const on = done < 0.2 ? 'none' : done > 0.8 ? 'all' : 'part';
		const at = ['face', line.face ?? '', line.coat ?? 0] as const;
		const lost = pass?.walked === true && draws.slips('losesPlace', ...at);
		const looks = !draws.slips('habit', 'last-face', ...at) && !draws.slips('suggests', 'last-face', ...at);
		const told = !lost || looks ? on : draws.slips('repeats', ...at) ? 'none' : 'all';
		return keyFor(line, told);
	}

	function oneGo(line: Line): string {
		const at = ['face', line.face ?? '', line.coat ?? 0] as const;
		const looks = !draws.slips('habit', 'one-go', ...at) && !draws.slips('suggests', 'one-go', ...at);
		return keyFor(line, pass?.walked && looks ? 'stopped' : 'yes');
	}

	return {
		walkOff,
		someone,
		spray,
		lastFace,
		oneGo,
		/** Another screen than spraying, and what became of the pass is told: the next one is another pass. */
		over: () => {
			pass = null;
		},
	};
}
