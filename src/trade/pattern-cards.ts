/** One printed card: its number, and a letter at each end of its cross. */
export type PatternCard = { number: number; top: string; bottom: string; left: string; right: string };

/**
 * Letters of each card: top, bottom, left, right. Letters told apart under a film of paint, none of those that the
 * first batches have; no two cards share a pair across, and neighbours in the pile share no letter.
 */
const table = [
	...['XHJM', 'PYRE', 'KMXS', 'HZTL', 'MRXJ', 'TYLE', 'SRKH', 'JLYX', 'RZKS', 'LXPH', 'RTUK', 'EXJS'],
	...['PRUM', 'KYSL', 'UTJE', 'YMPX', 'HTUR', 'PEMX', 'ZJKT', 'HRPM', 'SYUX', 'KETP', 'ZMHS', 'JTLK'],
];

/** Cards are numbered from 1 to this. */
export const cardCount = table.length;

/** A card by its number; undefined where no card has it. */
export function cardOf(number: number): PatternCard | undefined {
	const letters = Number.isInteger(number) ? table[number - 1] : undefined;
	if (letters === undefined) return undefined;
	const [top = '', bottom = '', left = '', right = ''] = letters;
	return { number, top, bottom, left, right };
}

/** What a tall fan covers of a card held upright, and what a wide one does. */
export const coveredBy = ({ top, bottom, left, right }: PatternCard): { tall: string; wide: string } => ({
	tall: top + bottom,
	wide: left + right,
});

/** Ends of the cross from its middle as a share of the fan's height: inside a tall or wide fan, outside a round one. */
const reach = 0.4;

/**
 * Half the length of the cross on a card, mm.
 * @param fan_mm height of the fan at the gun's distance, more than 0
 */
export const crossReach_mm = (fan_mm: number): number => reach * fan_mm;
