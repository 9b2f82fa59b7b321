import { readFrom } from './from-shelf.ts';
import { readShelfGun, readShelfMaterial, readShelfShape, readShelfShop } from './sheet.ts';
import type { ShelfKind } from './shelf.ts';

/** What is asked of a thing before it stands on the shelf: a material in the order in which its data sheet has it. */
export type Asked = {
	key: string;
	say: string;
	/** How an answer is written. */
	like: string;
	/** It may be left out. */
	may?: true;
	/** It is asked again until nothing more is answered. */
	again?: true;
	/** Only for a job whose parts are turned over. */
	turned?: true;
	/** Not amid a job: there a usual one stands in. */
	alone?: true;
	/** As the file has it. */
	value?: (answer: string) => string | null;
	/** Only behind such lines as were answered before. */
	where?: (lines: readonly string[]) => boolean;
};

const listed = (answer: string) => (/,/.test(answer) && !/^\[/.test(answer) ? `[${answer}]` : answer);
const keyed = (answer: string) => (/^\{/.test(answer) ? answer : `{ ${answer} }`);

/** `grey epoxy, 12 to 30 °C: wait 0 to 4 h, spray 4 h to 8 h, sand from 8 h`. */
function recoat(answer: string): string | null {
	const [, over, surface, windows] = /^(.+?),\s*([^,:]+):\s*(.+)$/.exec(answer) ?? [];
	if (!over || !surface || !windows) return null;
	const spans = windows.split(/\s*,\s*/).map(one => one.replace(/^(\w+)\s+/, '$1: '));
	return `\n  - over: ${over}\n    surface: ${surface.trim()}\n    windows: [${spans.join(', ')}]`;
}

/** `4:1:1 by volume` says the reducer, too. */
const hasReducer = /^ratio: (?:[\d.]+\s*:\s*){2}[\d.]+\s*(?:reducer\b|by\b|:)/;
const byWeight = /^ratio: .*weight/;

const material: readonly Asked[] = [
	{
		key: 'ratio',
		say: 'Ratio, base to hardener, and by what?',
		like: '2:1 by volume',
	},
	{
		...{ key: 'density', say: 'Density of each can?', value: keyed },
		where: lines => lines.some(line => byWeight.test(line)),
		like: 'base: 1.4 kg/L, hardener: 1.0 kg/L, reducer: 0.87 kg/L',
	},
	{
		...{ key: 'reducer', say: 'Reducer, a share of base and hardener?', like: '10%, or none' },
		where: lines => !lines.some(line => hasReducer.test(line)),
	},
	{
		...{ key: 'order', say: 'Mixing order?', value: listed, may: true },
		like: 'stir, base, hardener, reducer, strain',
	},
	{ key: 'standing', say: 'Standing time before it is sprayed?', like: '15 min, or none' },
	{
		...{ key: 'pot life', say: 'Pot life, at which temperatures?', value: listed },
		like: '3 h at 15 °C, 2 h at 20 °C',
	},
	{ key: 'strainer', say: 'Strainer?', like: '190 micron', may: true },
	{
		...{ key: 'coats', say: 'Dry film of each kind of coat?', value: keyed },
		like: 'tack: 15 µm, full: 30 µm',
	},
	{ key: 'sags above', say: 'Wet film above which it runs?', like: '100 µm' },
	{ key: 'flash', say: 'Flash between two coats?', like: '15 min to 2 h at 20 °C' },
	{
		...{ key: 'recoat', say: 'Recoat windows, over what?', value: recoat, again: true, may: true },
		like: 'grey epoxy, 12 to 30 °C: wait 0 to 4 h, spray 4 h to 8 h, sand from 8 h',
	},
	{ key: 'sand after', say: 'Sanded after?', like: '16 h at 20 °C', may: true, value: listed },
	{
		...{ key: 'dry to', say: 'Dry to handle, by its data sheet?', may: true, turned: true },
		...{ like: '4 h at 20 °C', value: answer => `{ handle: ${listed(answer)} }` },
	},
	{ key: 'grit', say: 'Grit it is sanded with?', like: '400 grit', may: true },
	{ key: 'wet edge', say: 'Wet edge, how long?', like: '2 min', may: true },
	{ key: 'wet the tip', say: 'Paint in the gun: wet the tip after?', like: '10 min', may: true },
	{ key: 'flush', say: 'Paint in the gun: flush after?', like: '30 min', may: true },
	{
		...{ key: 'solids', say: 'Solids by volume?', like: '50%, or base: 55%, hardener: 40%' },
		value: answer => (/:/.test(answer) ? keyed(answer) : answer),
	},
	{
		...{ key: 'limits', say: 'Limits of air, surface and humidity?', value: keyed },
		like: 'air: 12 to 32 °C, surface: 12 to 30 °C, humidity: 75%, over dew point: 3 °C',
	},
	{ key: 'isocyanate', say: 'Safety sheet: isocyanate?', like: 'yes, or no' },
	{
		...{ key: 'breathing', say: 'Safety sheet: breathing gear for each work?', value: keyed },
		like: 'mixing: supplied air, spraying: supplied air, sanding: filter mask with P3',
	},
];

const gun: readonly Asked[] = [
	{ key: 'pressure', say: 'Pressure at the inlet, trigger pulled?', like: '2 bar' },
	{
		...{ key: 'fan', say: 'Height of the fan, and how far off?', like: '25 cm at 15 cm' },
		value: answer => answer.replace(/\s+at\s+/, '\ndistance: '),
	},
	{ key: 'flow', say: 'Flow, measured into a cup?', like: '100 mL in 30 s' },
	{ key: 'cup', say: 'Cup?', like: '600 mL gravity' },
	{ key: 'fan depth', say: 'Depth of the fan?', like: '6 cm', may: true, alone: true },
	{ key: 'overlap', say: 'Overlap?', like: '50%', may: true, alone: true },
	{ key: 'transfer', say: 'Share of the paint that lands?', like: '50% ± 10%', may: true, alone: true },
];

const shape: readonly Asked[] = [
	{ key: 'is', say: 'Which shape, and its sizes?', like: 'panel, 40 x 38 x 3 cm' },
	{ key: 'held', say: 'How is it held?', like: 'on points, hanging or standing', may: true },
	{ key: 'hold by', say: 'Turned while wet, by what?', like: 'hook', may: true },
];

const shop: readonly Asked[] = [
	{ key: 'units', say: 'Units that the screens show?', like: 'metric, or us' },
	{ key: 'air', say: 'Air on a usual day?', like: '20 °C' },
	{ key: 'humidity', say: 'Humidity on a usual day?', like: '50%' },
	{ key: 'day', say: 'Opening hours?', like: '07:30 to 17:30, or 9 h', may: true },
];

/** The questions of a kind, but for its name. */
export const questionsOf: Readonly<Record<ShelfKind, readonly Asked[]>> = { material, gun, shape, shop };

const readers = {
	...{ material: readShelfMaterial, gun: readShelfGun },
	...{ shape: readShelfShape, shop: readShelfShop },
};

/** Words of somebody who does not know. */
const unknown = /^(\?+|unknown|not (given|known|on the sheet|stated)|n\/?a|none given|no idea)$/i;

/** What is wrong with an answer, with how this very question is answered. */
function wrongSaid(says: string | undefined, like: string): string {
	if (says === undefined) return `write it as in "${like}"`;
	const bare = says.replace(/,? as in ".*"$/, '');
	return bare === says ? `${says}; write it as in "${like}"` : `${bare}, as in "${like}"`;
}

/**
 * The lines of a file that an answer makes.
 * @param answer one line; the key that it is for is that of the question
 */
export function linesOf(
	kind: ShelfKind,
	{ key, like, value = one => one }: Asked,
	answer: string,
): { lines: string } | { wrong: string } {
	if (unknown.test(answer.trim())) return { wrong: 'write - where it is not given: it stays to be seen' };
	const written = value(answer.trim());
	if (written === null) return { wrong: wrongSaid(undefined, like) };
	const lines = written.startsWith('\n') ? `${key}:${written}` : `${key}: ${written}`;
	const text = `${kind}: it\n${lines}\n`;
	// What is missing is said of the first line; what is wrong with the answer, of its own.
	const { source } = readFrom<unknown>({ kind, name: null, path: '', text }, readers[kind]);
	const wrong = source.errors.find(({ line }) => line > 1);
	// A text that YAML cannot read says nothing of the trade.
	if (wrong) return { wrong: wrongSaid(source.root ? wrong.says : undefined, like) };
	return { lines };
}

/** The name of a thing as its file has it; what is wrong with it is said. */
export function nameLine(kind: ShelfKind, name: string): { lines: string } | { wrong: string } {
	const lines = `${kind}: ${name.trim()}`;
	const { source } = readFrom<unknown>({ kind, name: null, path: '', text: `${lines}\n` }, readers[kind]);
	const wrong = source.errors.find(({ column, says }) => column > 1 || !says.includes(' is missing'));
	return wrong ? { wrong: wrong.says } : { lines };
}
