import { cardCount, cardOf, coveredBy, type PatternCard } from '../../trade/pattern-cards.ts';
import { faceName } from '../../words/say.ts';
import { type Moment, ruleOf } from '../moment.ts';
import { option, type Prompt, type Reply } from '../prompt.ts';
import { layFor, wordsFor } from './gun-items.ts';
import { reading } from './reading.ts';
import { whyAsked, worded } from './worded.ts';

/** The pattern read from a card: its number first, then which of its letters the paint covered. */

/** The turns of four answers: the one that fits may stand in any corner. */
function shuffled<Thing>(things: readonly Thing[], turn: number): Thing[] {
	const left = [...things];
	const order: Thing[] = [];
	for (let rest = turn; left.length > 0; ) {
		order.push(...left.splice(rest % left.length, 1));
		rest = Math.floor(rest / (left.length + 1));
	}
	return order;
}

const spaced = (letters: string) => [...letters].join(' ');

/** Which card comes next is the painter's to take; a card with paint on it is not held up again. */
function taken(moment: Moment, face: string, value: number): Reply {
	const card = cardOf(value);
	if (!card) return { notice: () => 'No card has that number. Read it again.' };
	const again = coveredBy(card).tall === moment.state.book.lastCard;
	return again
		? { notice: () => 'That card has paint on it. Take a fresh one.' }
		: { next: () => whichLetters(moment, face, card) };
}

function whichLetters(moment: Moment, face: string, card: PatternCard): Prompt {
	const covered = coveredBy(card);
	const { check, opened, attempts } = moment.state.book;
	const wanted = covered[ruleOf(moment, face).pattern];
	const turn = (opened.seed ?? 0) + 7 * (check?.no ?? 0) + 5 * card.number + 11 * attempts;
	const answers = [covered.tall, covered.wide, card.top + card.right, 'bad'];
	return {
		state: 'gunCheck.card',
		ask: 'card',
		say: worded(moment, 'gun-check', 'pattern', 'letters', { card: String(card.number) }),
		lines: ['Both ends of one arm, or none of these.', ...whyAsked(moment, 'gun-check', 'pattern')],
		options: shuffled(answers, turn).map(code =>
			option(
				code,
				code === 'bad' ? 'NONE OF THESE' : spaced(code),
				reading(moment, 'card', code, wanted, { card: covered }),
			),
		),
	};
}

/** The last item of a gun check with pattern cards. */
export function cardPrompt(moment: Moment, face: string): Prompt {
	return {
		state: 'gunCheck.card.number',
		ask: 'number',
		say: worded(moment, 'gun-check', 'pattern', 'card'),
		lines: [
			...wordsFor(layFor(moment, face)),
			`One short burst on its cross. Gun held as for ${faceName(face)}.`,
			...whyAsked(moment, 'gun-check', 'pattern'),
		],
		number: {
			of: 'card',
			unit: 'card',
			min: 1,
			max: cardCount,
			step: 1,
			reply: value => taken(moment, face, value),
		},
	};
}
