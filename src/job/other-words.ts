import { editDistance, nearest } from '../trade/nearest.ts';

/** What other shops call things, and the words of a job sheet that they may mean, the likeliest first. */
const meant: Readonly<Record<string, readonly string[]>> = {
	thinner: ['reducer'],
	thinners: ['reducer'],
	solvent: ['reducer'],
	catalyst: ['hardener'],
	activator: ['hardener'],
	'curing agent': ['hardener'],
	accelerator: ['ratio'],
	flattener: ['ratio'],
	'matting agent': ['flattener', 'ratio'],
	'flatting paste': ['flattener', 'ratio'],
	'part b': ['hardener'],
	resin: ['base'],
	colour: ['base'],
	color: ['base'],
	paint: ['base', 'spray'],
	'part a': ['base'],
	quantity: ['count'],
	qty: ['count'],
	number: ['count'],
	pieces: ['count'],
	induction: ['standing'],
	'induction time': ['standing'],
	'sweat-in': ['standing'],
	'sweat-in time': ['standing'],
	thickness: ['film'],
	microns: ['film'],
	dft: ['film'],
	layers: ['coats'],
	passes: ['coats'],
	filter: ['strainer'],
	sieve: ['strainer'],
	clean: ['degrease', 'wipe'],
	'panel wipe': ['degrease', 'wipe'],
	'wax and grease remover': ['degrease', 'wipe'],
	tape: ['mask'],
	dry: ['flash', 'wait'],
	'wait between coats': ['flash'],
	'flash off': ['flash'],
	'rub down': ['sand'],
	flat: ['sand'],
	'flat down': ['sand'],
	abrade: ['sand'],
	air: ['pressure', 'limits'],
	'air pressure': ['pressure'],
	side: ['face'],
	surface: ['face'],
	back: ['inside', 'underside'],
	front: ['outside'],
	piece: ['part'],
	item: ['part'],
	object: ['part'],
	'tack rag': ['tack'],
	'tack cloth': ['tack'],
	turn: ['turn over'],
	flip: ['turn over'],
	'pot-life': ['pot life'],
	'working time': ['pot life'],
	mixing: ['ratio', 'order'],
	'mix ratio': ['ratio'],
	sags: ['sags above'],
	exclude: ['leave out'],
	except: ['leave out'],
	skip: ['leave out'],
	paints: ['materials'],
	steps: ['stages'],
	'wait overnight': ['wait'],
	hung: ['hanging'],
	lying: ['on points', 'flat'],
	horizontal: ['flat'],
	vertical: ['upright', 'up and down'],
	imperial: ['us'],
	hook: ['hanging'],
	hooks: ['hanging'],
	wire: ['hanging'],
	trestles: ['on points'],
	nails: ['on points'],
	board: ['panel'],
	plank: ['panel'],
	shelf: ['panel'],
	door: ['door both sides', 'panel'],
	crate: ['box'],
	cabinet: ['box'],
	carcass: ['box'],
	tube: ['tube frame', 'tubes'],
	pipe: ['tube frame', 'tubes'],
	rod: ['spindle', 'round'],
	dowel: ['spindle', 'round'],
};

/** Two edits are a slip, and of a longer word a third of it is; a word all of whose letters differ is another. */
const slip = (word: string): number => Math.min(word.length - 1, Math.max(2, Math.floor(word.length / 3)));

const byMeaning = (plain: string, words: readonly string[]): string | undefined =>
	Object.hasOwn(meant, plain) ? meant[plain]?.find(one => words.includes(one)) : undefined;

/** The one word that must be meant: another shop's for it, or a slip of a letter in three. */
export function isMeant(word: string, words: readonly string[]): string | undefined {
	const other = byMeaning(word.trim().toLowerCase(), words);
	const like = nearest(word, words);
	if (other !== undefined || like === undefined) return other;
	return editDistance(word, like) <= Math.max(1, word.length / 3) ? like : undefined;
}

/**
 * The word that somebody means: by what other shops call it, then by its letters.
 * @returns undefined where it is like none of them
 */
export function likeliest(word: string, words: readonly string[]): string | undefined {
	const plain = word.trim().toLowerCase();
	const other = byMeaning(plain, words);
	if (other !== undefined || word.length > 100) return other;
	const inside = words.find(one => plain.length > 2 && one.toLowerCase().includes(plain));
	const like = nearest(word, words);
	const isSlip = like !== undefined && editDistance(plain, like.toLowerCase()) <= slip(plain);
	return isSlip ? like : inside;
}
