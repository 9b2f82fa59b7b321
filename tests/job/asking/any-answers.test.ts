import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Question } from '../../../src/job/asking/question.ts';
import { parseJob } from '../../../src/job/load.ts';
import { readShelf, type Shelf } from '../../../src/job/shelf.ts';
import { shelf as folder } from '../chairs/long-form.ts';
import { type Answerer, answered, written } from './answered.ts';

/** Whatever is answered, in whatever order: a sheet that is written has nothing wrong with it. */

const filled = readShelf(folder);
const empty: Shelf = { ...filled, files: [] };

/** What people type where no choice is offered, the usable and the useless. */
const typed: Readonly<Record<string, readonly string[]>> = {
	name: ['Eight garden chairs', 'a: b # c', '"quoted"', 'Stühle – grün', ''],
	part: ['8 x frame', 'seat', '3 x door', 'lid, small', '0 x tray', 'frame 2', 'top', ''],
	sizes: [
		'40 x 38 x 3 cm',
		'20 mm tube, 8 m',
		'1 1/2 x 24 in',
		'40 x 30 x 20 cm, open',
		'25 mm, 2 m, square',
		'small',
		'3 x 2 x 1 m',
	],
	faces: ['top', 'edges, top', 'underside', 'sides', 'tubes', 'inside', 'round', 'nothing'],
	coats: ['full', '2 full', 'tack, full', 'tack, 2 full', 'medium', '[full, full]', ''],
	'more coats': ['', '', 'top: 3 full', 'edges: tack, full', 'tubes: full', 'nowhere: full', 'top'],
	prep: [
		'none',
		'overnight, sand 320 grit, wipe, tack',
		'16 h, scuff, wipe, tack',
		'wipe, wipe',
		'mask',
		'degrease, sand, fill',
		'tack, overnight',
		'wipe 320 grit',
	],
	start: ['2027-03-02 08:00', '2027-02-30 08:00', '-', 'tomorrow', ''],
	change: ['x', '20', '1'],
	'new material': ['linen satin', 'grey epoxy', 'a/b'],
	'new gun': ['small', 'large'],
	'new shop': ['the Pump Yard workshop'],
	ratio: ['2:1 by volume', '100:18 by weight', 'two to one', '4:1:1 by volume', '-'],
	density: ['base: 1.4 kg/L, hardener: 1.0 kg/L, reducer: 0.87 kg/L', 'none'],
	reducer: ['10%', 'none', 'some'],
	order: ['stir, base, hardener, reducer, strain', 'stir, base, hardener, strain', 'shake'],
	standing: ['none', '15 min', 'a while'],
	'pot life': ['2 h at 20 °C', '3 h at 15 °C, 1 h at 30 °C', '2 h'],
	strainer: ['190 micron'],
	'sags above': ['120 µm', '20 µm', 'thick'],
	flash: ['15 min to 2 h at 20 °C', '15 min'],
	recoat: [
		'grey epoxy, 12 to 30 °C: wait 0 to 4 h, spray 4 h to 8 h, sand from 8 h',
		'linen satin, 12 to 30 °C: wait 0 to 15 min, spray 15 min to 2 h, wait 2 h to 16 h, scuff from 16 h',
		'moss green satin, 12 to 30 °C: wait 0 to 1 h, spray 1 h to 6 h',
		'always',
		'',
	],
	'sand after': ['16 h at 20 °C', ''],
	grit: ['400 grit', 'P320', 'fine', ''],
	'wet edge': ['2 min'],
	'wet the tip': ['10 min'],
	flush: ['30 min'],
	solids: ['50%', 'most'],
	limits: ['air: 12 to 32 °C, humidity: 75%, over dew point: 3 °C', 'warm'],
	isocyanate: ['yes', 'no', 'perhaps'],
	breathing: ['mixing: supplied air, spraying: supplied air', 'spraying: filter mask with A2-P3', 'a mask'],
	pressure: ['2 bar', '30 psi', 'two'],
	fan: ['25 cm', '8 in'],
	distance: ['15 cm', ''],
	'fan depth': ['6 cm', ''],
	flow: ['100 mL in 30 s', '200 mL/min ± 3%', 'fast'],
	overlap: ['50%', ''],
	transfer: ['50% ± 10%', ''],
	cup: ['600 mL gravity', '20 mL gravity', '600 mL'],
	units: ['metric', 'us', 'feet'],
	air: ['20 °C', '68 °F', '20'],
	humidity: ['50%', '0%'],
	day: ['9 h', '14 h', ''],
};
const waysOf = ({ question, choices = [], offered }: Question): readonly string[] => [
	...(offered === undefined ? [] : ['']),
	...choices,
	...choices.map((_, nth) => String(nth + 1)).slice(0, 2),
	...(typed[question] ?? []),
];

const films = ['full: 30 µm', 'tack: 12 µm, full: 28 µm', 'film'];

/** Put at the end alone, so that a way not taken yet is taken then. */
const lateKinds = ['more coats', 'prep', 'change', 'write'];
/** After so many questions an interview is brought to its end. */
const longEnough = 60;

/**
 * Answers by chance: a way that was never taken before, or one of the first, which are the usable ones. From what was
 * refused too often it goes back, further each time.
 */
function byChance(chance: () => number, ways: Set<string>): Answerer {
	let [count, backs, refusals] = [0, 0, 0];
	let isOnSheet = false;
	return (question, tries) => {
		count++;
		if (backs-- > 0) return 'back';
		if (tries > 5) backs = 2 * ++refusals;
		if (tries > 5) return 'back';
		if (question.question === 'ratio') isOnSheet = true;
		if (question.question === 'isocyanate') isOnSheet = false;
		const kind = question.question === 'coats' && isOnSheet ? 'films' : question.question;
		const all = kind === 'films' ? films : waysOf(question);
		const fresh = all.find(one => !ways.has(`${kind}: ${one}`));
		const isLate =
			count > longEnough && (fresh === undefined || !lateKinds.includes(kind) || count > 3 * longEnough);
		if (isLate && (question.may || (kind === 'write' && question.offered))) return '';
		const isFresh = lateKinds.includes(kind) || (!isLate && chance() < 0.4);
		const isNew = kind.startsWith('new ') && chance() < 0.5;
		const given = isNew
			? `satin ${count}`
			: ((isFresh ? fresh : undefined) ?? all[Math.floor(chance() ** 3 * all.length)] ?? '');
		ways.add(`${kind}: ${given}`);
		return given;
	};
}

function tried(shelf: Shelf, seed: number, ways: Set<string>) {
	const [first = 0] = fc.sample(fc.integer({ min: 1, max: 2 ** 31 - 2 }), { numRuns: 1, seed });
	let state = first;
	const chance = () => {
		state = (state * 48_271) % 2_147_483_647;
		return state / 2_147_483_647;
	};
	return answered(shelf, byChance(chance, ways), 250);
}

test('every sheet that the questions make has nothing wrong with it, and every question was answered in every way', () => {
	const ways = new Set<string>();
	const questions = new Map<string, readonly string[]>();
	let sheets = 0;
	const runs = 60;
	for (let seed = 1; seed <= runs; seed++) {
		const shelf = seed % 4 === 0 ? empty : filled;
		const { outcome, put } = tried(shelf, seed, ways);
		for (const one of put) questions.set(one.question, waysOf(one));
		// What is wrong is said where it is answered, never at the end.
		expect(put.filter(one => one.question === 'write' && one.offered !== 'WRITE')).toEqual([]);
		if (!outcome || 'backTo' in outcome) continue;
		const { text, lacking } = written(outcome);
		const on = {
			...shelf,
			files: [
				...shelf.files.filter(({ kind }) => kind !== 'shop' || !lacking.some(one => one.kind === 'shop')),
				...lacking,
			],
		};
		const loaded = parseJob(text, 'new.yaml', () => on);
		expect(loaded.ok ? [] : [seed, text, loaded.errors]).toEqual([]);
		sheets++;
	}
	expect(sheets).toBeGreaterThan(runs / 3);
	const never = Object.entries(typed).flatMap(([question, all]) =>
		all.filter(one => !ways.has(`${question}: ${one}`)).map(one => `${question}: ${one}`),
	);
	expect(never).toEqual([]);
	const choices = ['shape', 'held', 'left over', 'preparation', 'write'].flatMap(question =>
		(questions.get(question) ?? ['never put']).map(way => `${question}: ${way}`),
	);
	expect(choices.filter(one => !ways.has(one))).toEqual([]);
}, 600_000);
