import type { Line } from '../../../src/day/rehearsal.ts';
import type { Corner } from '../../../src/day/view.ts';
import { keyFor } from '../../../src/painter/painter.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { smallJob } from '../../day/small-job.ts';
import type { Finding } from '../checker/finding.ts';
import { secondHitCounts } from './double-hit.ts';
import type { Draws } from './draws.ts';
import { mixingHand } from './mixing-hand.ts';
import { isLooked, readingHand } from './reading.ts';
import { sprayingHand } from './spraying-hand.ts';
import { type Truth, truthOf } from './truth.ts';

/** A day of the engine itself, with an erring painter before it. */

export type Way = 'patterns' | 'cards' | 'shown';
export type Played = { truth: Truth; findings: Finding[]; stops: number; keys: number };

const cornerOf: Record<string, Corner> = {
	'top-left': 'topLeft',
	'top-right': 'topRight',
	'bottom-left': 'bottomLeft',
	'bottom-right': 'bottomRight',
};

/** Hands for one day: what is keyed at each screen. */
function handsOf(day: ReturnType<typeof rehearsed>, draws: Draws, way: Way, truth: Truth) {
	const { job, painter, state } = day;
	const meant = () => state().machine.context.cup;
	const reading = readingHand({ job, draws, truth, primed: way === 'shown', meant });
	const mixing = mixingHand({ draws, truth, painter, reading, state });
	const spraying = sprayingHand({ job, draws, truth, reading, state });

	function instructed(line: Line): string {
		const codes = line.do.map(({ code }) => code);
		const at = [line.face ?? '', line.coat ?? 0] as const;
		if (codes.includes('fill-cup')) return mixing.fill(line);
		if (codes.includes('set-horns') && draws.slips('leavesTurned', ...at, reading.nextTry('turn', ...at)))
			return keyFor(line, 'done');
		const key = painter.answer(line) ?? '';
		if (codes.includes('change-cup')) mixing.rightCup();
		if (codes.includes('empty-cup')) truth.cup = [];
		return key;
	}

	function number(line: Line): string | null {
		if (line.state.startsWith('mix.level') && line.accepted) return mixing.level(line);
		const key = painter.answer(line);
		const at = [line.ask, line.face ?? '', line.coat ?? 0] as const;
		const off = draws.slips('misreads', ...at, reading.nextTry('number', ...at));
		const value = Number(key?.split(' ')[1]);
		return off && (line.ask === 'gauge' || line.ask === 'pattern-height')
			? `number ${Math.round(value * 0.8)}`
			: key;
	}

	return (line: Line): string | null => {
		const { ask } = line;
		if (ask === 'pattern' || ask === 'card') truth.turnedSince = false;
		if (isLooked(ask)) {
			const key = reading.look(line, ask);
			if (key !== null || ask !== 'batch') return key ?? painter.answer(line);
			mixing.rightCup();
			return reading.look(line, ask) ?? painter.answer(line);
		}
		if (ask === 'go') spraying.over();
		if (ask === 'go' && line.state === 'ready') return spraying.walkOff(line) ?? painter.answer(line);
		if (ask === 'spraying') return spraying.spray(line);
		if (ask === 'last-face') return spraying.lastFace(line);
		if (ask === 'one-go') return spraying.oneGo(line);
		if (ask === 'can') return mixing.can(line);
		if (ask === 'do') return instructed(line);
		if (ask === 'wait' && line.state === 'wait' && reading.nextTry('away', line.coat ?? 0) === 1)
			spraying.someone('wait', line.coat ?? 0);
		return line.step !== undefined ? number(line) : painter.answer(line);
	};
}

/** A second hit where the first one was struck twice, if the key guard lets it through. */
function hitAgain(day: ReturnType<typeof rehearsed>, draws: Draws, key: string, nth: number): void {
	const corner = cornerOf[key];
	if (!corner || !draws.slips('doubleHits', 'key', nth)) return;
	if (secondHitCounts(80 + 720 * draws.draw('apart', nth)) && day.line().corners[corner]) day.send(key);
}

/** Plays the day to its end. */
export function guardedDay(seed: number, draws: Draws, way: Way): Played {
	const day = rehearsed({
		job: smallJob(),
		settings: { cards: way === 'cards' },
		before: { faces: {}, letters: 1 },
		seed,
	});
	const truth = truthOf(day.job, () => day.state().machine.context.cup, day.painter.world);
	const next = handsOf(day, draws, way, truth);
	let keys = 0;
	for (let line = day.line(); line.ask !== 'closed'; line = day.line()) {
		const key = next(line);
		if (key === null || keys > 3000) throw new Error(`seed ${seed}, ${way}: the day stands in ${line.state}`);
		day.send(key);
		keys++;
		hitAgain(day, draws, key, keys);
	}
	const faces = new Map(day.line().faces.map(({ face, coats }) => [face, coats]));
	truth.end(({ id }) => faces.get(id) ?? 0);
	const stops = day.ofType('reading.taken').filter(({ matched, check }) => check !== null && !matched).length;
	return { truth, findings: day.findings(), stops, keys };
}
