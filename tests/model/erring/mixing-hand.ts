import { batchInHand } from '../../../machines/day-context.ts';
import type { Line } from '../../../src/day/rehearsal.ts';
import type { DayState } from '../../../src/day/state.ts';
import { keyFor, type Painter } from '../../../src/painter/painter.ts';
import type { Draws } from './draws.ts';
import type { ReadingHand } from './reading.ts';
import { oldPot, type Truth } from './truth.ts';

/** Cans, pours and cups as an erring painter handles them; the truth keeps what really went in. */

export type Bench = {
	draws: Draws;
	truth: Truth;
	painter: Painter;
	reading: ReadingHand;
	state(): DayState;
};

export function mixingHand({ draws, truth, painter, reading, state }: Bench) {
	/** The can in the hand is another one, or some of it went in before it was read. */
	let otherCan = false;
	let spoiled = false;

	const inHand = () => {
		const [letter = '', batch] = batchInHand(state().machine.context) ?? [];
		return { letter, component: batch?.context.todo[0] ?? '' };
	};

	function can(line: Line): string {
		const { letter, component } = inHand();
		const { book } = state();
		const material = book.batches.get(letter)?.material;
		const own = book.opened.cans.filter(one => one.material === material);
		const right = own.find(one => one.component === component)?.mark ?? '';
		const wrong = own.find(one => one.component !== component)?.mark ?? '';
		const attempt = reading.nextTry('wrongCan', letter, component);
		otherCan = draws.slips('wrongCan', letter, component, attempt);
		spoiled ||= otherCan && draws.slips('poursUnread', letter, component, attempt);
		painter.answer(line);
		const seen = { truth: otherCan ? wrong : right, wanted: right, otherwise: otherCan ? right : wrong };
		return keyFor(line, reading.choose(line, 'can', seen, letter, component));
	}

	/** Poured, or thought to be; the level is then read, or keyed from what the screen asked for. */
	function level(line: Line): string {
		const { letter, component } = inHand();
		if (spoiled && line.ask === 'level') return keyFor(line, 'between');
		if (spoiled) {
			spoiled = false;
			return keyFor(line, 'discard');
		}
		const before = truth.world.pot;
		const target = painter.answer(line) ?? '';
		if (component !== 'hardener') return target;
		const attempt = reading.nextTry('forgets', letter);
		if (!draws.slips('forgets', letter, attempt)) {
			truth.pot(letter).hardener = !otherCan;
			return target;
		}
		if (draws.slips('suggests', 'level', letter, attempt)) return target;
		truth.world.pot = before;
		return `number ${before}`;
	}

	/** Fills the cup, from the pot that is meant or from yesterday's, and copies the tape of the pot to the cup. */
	function fill(line: Line): string {
		const meant = [...state().machine.context.cup];
		const key = painter.answer(line) ?? '';
		const [letter = ''] = truth.world.cup.split('+').filter(one => !meant.includes(one));
		const wrong = letter !== '' && draws.slips('wrongPot', letter, reading.nextTry('wrongPot', letter));
		const poured = wrong ? oldPot : letter;
		if (poured !== '') truth.cup.push(truth.pot(poured));
		truth.world.cup = [...new Set(truth.cup.map(pot => pot.letter))].sort().join('+');
		return key;
	}

	/** Hangs the cup that is meant. */
	function rightCup(): void {
		const { cup } = state().machine.context;
		truth.cup = cup.map(letter => truth.pot(letter));
		truth.world.cup = cup.join('+');
	}

	return { can, level, fill, rightCup };
}
