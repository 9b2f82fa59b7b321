import { extname } from 'node:path';
import { plainName } from '../day/file/trouble.ts';
import { cardSvg, cardsPage, type Paper, reachOn_mm } from '../report/cards.ts';
import { cardCount, cardOf, type PatternCard } from '../trade/pattern-cards.ts';
import { parseQuantity } from '../trade/quantity.ts';
import type { Args, Command, Io } from './command.ts';
import { told } from './day-files.ts';
import { writeReport } from './report.ts';

const standardFan = '200 mm';

function fanAsked({ options }: Args): number {
	const parsed = parseQuantity(String(options.fan ?? standardFan), 'length');
	if (!parsed.ok) throw new RangeError(`--fan: ${parsed.message}`);
	if (parsed.value >= 50 && parsed.value <= 600) return parsed.value;
	throw new RangeError('--fan is the height of the fan on the work: between 50 mm and 600 mm');
}

function paperAsked({ options }: Args): Paper {
	const paper = options.paper ?? 'a4';
	if (paper === 'a4' || paper === 'letter') return paper;
	throw new RangeError(`--paper "${plainName(String(paper))}" is unknown: say a4 or letter`);
}

function cardsAsked({ options }: Args): PatternCard[] {
	const all = Array.from({ length: cardCount }, (_, index) => cardOf(index + 1)).filter(
		card => card !== undefined,
	);
	if (options.card === undefined) return all;
	const card = cardOf(Number(options.card));
	if (card) return [card];
	throw new RangeError(
		`--card "${plainName(String(options.card))}" is no card: say one of 1 to ${cardCount}`,
	);
}

/** The sheet, by the ending of its file. */
function drawn(path: string, cards: readonly PatternCard[], fan_mm: number, paper: Paper): string {
	const ending = extname(path).toLowerCase();
	const [only, more] = cards;
	if (ending === '.html') return cardsPage(cards, fan_mm, paper);
	if (ending === '.svg' && only && !more) return cardSvg(only, fan_mm, paper).markup;
	throw new RangeError(
		ending === '.svg'
			? `${plainName(path)}: an .svg holds one card: add --card N, or end the file in .html`
			: `${plainName(path)}: its ending says no kind of sheet: end it in .html, or in .svg with --card N`,
	);
}

function cards(args: Args, io: Io): number {
	const fan_mm = fanAsked(args);
	const paper = paperAsked(args);
	const asked = cardsAsked(args);
	const path = args.options.output;
	if (typeof path === 'string')
		writeReport(path, drawn(path, asked, fan_mm, paper), args.options.force === true, {
			what: asked.length === 1 ? 'the card was' : 'the cards were',
		});
	if (args.options.json) {
		const reach_mm = reachOn_mm(fan_mm, paper);
		io.stdout.write(`${JSON.stringify({ reach_mm, cards: asked })}\n`);
		return 0;
	}
	if (typeof path !== 'string')
		throw new RangeError('-o FILE is missing: name a file, as in -o cards.html, then print it at 100 %');
	io.stdout.write(
		`${plainName(path)}: ${asked.length === 1 ? 'one card' : `${asked.length} cards`}. Print at 100 %, and measure the line of 100 mm.\n`,
	);
	return 0;
}

/** Pattern cards to print. */
export const cardsCommand: Command = {
	name: 'cards',
	summary: 'pattern cards to print: crosses at life size, their letters read back in the gun check',
	usage: ['cards -o FILE.html [--fan HEIGHT] [--paper a4|letter] [--force]', 'cards -o FILE.svg --card N'],
	words: 0,
	options: {
		output: {
			type: 'string',
			value: 'FILE',
			short: 'o',
			says: 'where to: .html all cards, a page each; .svg one card',
		},
		fan: {
			type: 'string',
			value: 'HEIGHT',
			says: `height of the fan on the work; ${standardFan} if left out`,
		},
		paper: { type: 'string', value: 'a4|letter', says: 'the paper it is printed on; a4 if left out' },
		card: { type: 'string', value: 'N', says: `only this card, 1 to ${cardCount}` },
		force: { type: 'boolean', says: 'write over a file of that name; without it that is refused' },
		json: { type: 'boolean', says: 'the cards as JSON: number, letters, and reach of the cross in mm' },
	},
	examples: [
		'cards -o cards.html',
		'cards -o cards.html --fan "8 in" --paper letter',
		'cards -o card-7.svg --card 7',
	],
	run: (args, io) => told('cards', io, () => cards(args, io)),
};
