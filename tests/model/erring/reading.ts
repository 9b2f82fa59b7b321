import type { Line } from '../../../src/day/rehearsal.ts';
import type { Job } from '../../../src/job/job.ts';
import { keyFor } from '../../../src/painter/painter.ts';
import { patternOf } from '../../../src/painter/world.ts';
import { cardOf, coveredBy } from '../../../src/trade/pattern-cards.ts';
import type { Draws, Where } from './draws.ts';
import type { Truth } from './truth.ts';

/** How an erring painter answers a question about what is there: by looking, by habit, or by what must be right. */

export type Asking = {
	job: Job;
	draws: Draws;
	truth: Truth;
	/** The wanted reading stands on the screen. */
	primed: boolean;
	/** Letters of the batches that the program takes the cup to hold. */
	meant(): readonly string[];
};

type Seen = { truth: string; wanted: string; otherwise: string };

const shows = (line: Line, code: string) => Object.values(line.corners).some(corner => corner.code === code);

function pattern({ job, truth }: Asking, line: Line): Seen {
	const face = job.faces.find(({ id }) => id === line.face);
	if (!face) return { truth: 'bad', wanted: 'bad', otherwise: 'bad' };
	const wanted = face.coats[(line.coat ?? 1) - 1]?.stroke === 'side-to-side' ? 'tall' : 'wide';
	const there = patternOf(truth.world, face);
	return { truth: there, wanted, otherwise: there === 'tall' ? 'wide' : 'tall' };
}

/** The same of the card held up, in its letters. */
function card(asking: Asking, line: Line): Seen {
	const held = cardOf(asking.truth.world.card);
	const letters: Record<string, string> = held ? coveredBy(held) : {};
	const seen = pattern(asking, line);
	const of = (shape: string) => letters[shape] ?? 'bad';
	return { truth: of(seen.truth), wanted: of(seen.wanted), otherwise: of(seen.otherwise) };
}

function horns({ job, truth }: Asking, line: Line): Seen {
	const face = job.faces.find(({ id }) => id === line.face);
	const there = truth.world.horns;
	const wanted = face?.coats[(line.coat ?? 1) - 1]?.horns ?? 'level';
	return { truth: there, wanted, otherwise: there === 'level' ? 'upright' : 'level' };
}

function batch({ truth, meant }: Asking, line: Line): Seen {
	const wrong = Object.values(line.corners).find(({ code }) => code !== truth.world.cup)?.code;
	return { truth: truth.world.cup, wanted: meant().join('+'), otherwise: wrong ?? truth.world.cup };
}

const seenAt = { pattern, card, horns, batch };
export type Looked = keyof typeof seenAt;
export const isLooked = (ask: string): ask is Looked => ask in seenAt;

/** Remembers what was keyed, for habit, and how often a thing was asked. */
export function readingHand(asking: Asking) {
	const { draws, primed } = asking;
	const last = new Map<string, { code: string; corner: string }>();
	const tries = new Map<string, number>();

	/** What is keyed without looking; null: he looks. */
	function unseen(line: Line, item: string, wanted: string, at: Where): string | null {
		const habit = draws.slips('habit', item, ...at);
		const suggests = draws.slips('suggests', item, ...at);
		if (primed && (habit || suggests)) return wanted;
		const before = last.get(item);
		if (habit && before) {
			const corner = Object.entries(line.corners).find(([name]) => name === before.corner)?.[1].code;
			return item === 'card' ? (corner ?? null) : before.code;
		}
		if (!suggests) return null;
		if (item !== 'card') return wanted;
		const pairs = Object.values(line.corners).filter(({ code }) => code !== 'bad');
		return pairs[Math.floor(draws.draw('guess', ...at) * pairs.length)]?.code ?? null;
	}

	/** Which try this is at a thing in one place. */
	const nextTry = (...where: Where): number => {
		const key = where.join('|');
		const count = (tries.get(key) ?? 0) + 1;
		tries.set(key, count);
		return count;
	};

	/** The code keyed for what is there. */
	function choose(line: Line, item: string, { truth, wanted, otherwise }: Seen, ...where: Where): string {
		const at = [...where, nextTry(item, ...where)];
		const given = unseen(line, item, wanted, at);
		const code =
			given !== null && shows(line, given) ? given : draws.slips('misreads', item, ...at) ? otherwise : truth;
		const corner = Object.entries(line.corners).find(([, choice]) => choice.code === code)?.[0];
		if (corner) last.set(item, { code, corner });
		return code;
	}

	return {
		nextTry,
		choose,
		/** A line for a question of the check; null: what is there stands in no corner. */
		look(line: Line, ask: Looked): string | null {
			const code = choose(line, ask, seenAt[ask](asking, line), line.face ?? '', line.coat ?? 0);
			return shows(line, code) ? keyFor(line, code) : null;
		},
	};
}
export type ReadingHand = ReturnType<typeof readingHand>;
