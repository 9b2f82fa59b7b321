import { initialTransition } from 'xstate';
import type { DayContext, FaceState } from '../../machines/day-context.ts';
import { gunMachine, type Known } from '../../machines/gun.ts';
import { transition } from '../../machines/step.ts';
import type { Facts } from '../../src/day/records.ts';
import { faceWalk } from './alone.ts';
import type { FacePair } from './day-key.ts';
import { asTheyAre, type Machines } from './machines.ts';
import { allGood, lid, topcoat, twoByTwo } from './plans.ts';
import type { Broken } from './properties.ts';
import { isReasoned, ownLine, type SprayedFace } from './sprayed-face.ts';

/**
 * What stands between one face and its coat, asked of every state a face comes to, under everything that day, cup and
 * gun can be, and every fact in turn as bad as it can be: named here anew, from the words of the rules, and in order.
 */

/** First what happened, then dusty work, then list, air and paint; tacked once the cup is filled; the gun last. */
const inOrder: readonly string[] = [
	'account',
	'one-go',
	'aside',
	'coats',
	'window wait',
	'prep',
	'window scuff',
	'window sand',
	'touch',
	'list',
	'air none',
	'air stale',
	'air out',
	'cup dead',
	'cup other-material',
	'cup other-mix',
	'cup stood',
	'cup dying',
	'cup empty',
	'cup short',
	'tack',
	'gun unknown',
	'gun horns',
	'gun fan',
	'gun aged',
];

const [coat] = lid.coats;
if (!coat) throw new Error('a lid is coated');
const rule = { ...coat, prep: ['sand', 'tack'] as const, touch: true };
const face = { ...lid, coats: [rule], finishing: ['unmask', 'sand', 'tack'] as const };

/** … and one that is wiped and tacked again behind a sanding that its list does not have. */
const cleaned = ['wipe', 'tack'] as const;
const swept = { ...lid, id: 'box', coats: [{ ...coat, prep: ['tack'] as const, cleaned }] };

type Cup = 'none' | 'own' | 'other' | 'both';
type Gun = Known | null;
type Around = { late: boolean; listDone: boolean; otherBroken: boolean; cup: Cup; gun: Gun };

const known: Known = { horns: coat.horns, fanHeight_mm: coat.fanHeight_mm, check: 1, passedOver: [] };
const guns: readonly Gun[] = [
	null,
	known,
	{ ...known, horns: 'upright' },
	{ ...known, fanHeight_mm: 180 },
	{ ...known, horns: 'upright', fanHeight_mm: 180 },
];
const letters: Record<Cup, readonly string[]> = { none: [], own: ['A'], other: ['B'], both: ['A', 'B'] };

/** Each of them in turn otherwise than it serves, and all at once. */
const serving: Around = { late: false, listDone: true, otherBroken: false, cup: 'own', gun: known };
const around: readonly Around[] = [
	serving,
	{ ...serving, late: true },
	{ ...serving, listDone: false },
	{ ...serving, otherBroken: true },
	...(['none', 'other', 'both'] as const).map(cup => ({ ...serving, cup })),
	...guns.map(gun => ({ ...serving, gun })),
	...(['none', 'other'] as const).flatMap(cup =>
		guns.map(gun => ({ late: true, listDone: false, otherBroken: true, cup, gun })),
	),
];

const allBad: Facts = {
	...{ air: 'none', alive: false, thinned: false, fresh: false, lasts: false, enough: false },
	...{ aged: true, wet: false },
};
const found: readonly Facts[] = [
	allGood,
	{},
	...(['none', 'stale', 'out'] as const).flatMap(air => [
		{ ...allGood, air },
		{ ...allBad, air },
	]),
	...(['alive', 'thinned', 'fresh', 'lasts', 'enough', 'wet'] as const).map(fact => ({
		...allGood,
		[fact]: false,
	})),
	{ ...allGood, aged: true },
];

/** The window that keeps a coat off: no work for it was done, and no reason given while it stood. */
function shutBy(told: SprayedFace): string | null {
	const { window, stages } = told;
	if (window === 'spray' || window === 'bare' || isReasoned(told)) return null;
	if (window === 'scuff' && (stages.includes('scuff') || stages.includes('sand'))) return null;
	return window === 'sand' && stages.includes('sand') ? null : window;
}

const isClean = (step: string): boolean => step === 'wipe' || step === 'tack';

/** Dust is raised before it is wiped off, and it is wiped before it is tacked; what nothing but the coat follows is tacked last. */
function workOn(told: SprayedFace, shut: string | null): string[] {
	const [next, ...more] = told.left;
	if ((shut === 'scuff' || shut === 'sand') && told.left.every(({ step }) => isClean(step)))
		return [`window ${shut}`];
	const dust = told.laid < face.coats.length || told.overrides.includes('coats') ? told.dust : [];
	if (dust.includes('wipe') && (!next || next.step === 'tack')) return ['prep: wipe at null'];
	if (!next) return dust.includes('tack') ? ['tack: tack at null'] : [];
	return [`${next.step === 'tack' && more.length === 0 ? 'tack' : 'prep'}: ${next.step} at ${next.place}`];
}

function ofFace(told: SprayedFace, wet: boolean): string[] {
	const shut = shutBy(told);
	const window = shut ? [`window ${shut}`] : [];
	if (told.aside) return [told.sound ? 'aside: beside another' : `aside: ${ownLine[told.line]}`];
	if (told.coat === 'part') return wet ? [] : window;
	const isTouched =
		told.id === swept.id || told.tab || told.stages.includes('sand') || told.overrides.includes('touch');
	return [
		...(shut === 'wait' ? window : []),
		...(told.laid >= face.coats.length && !told.overrides.includes('coats') ? ['coats'] : []),
		...workOn(told, shut),
		...(!isTouched ? ['touch'] : []),
	];
}

/** A fact that nobody tells counts as bad. */
function wanted(told: SprayedFace, day: Around, facts: Facts): string[] {
	const { cup, gun } = day;
	const air = facts.air ?? 'none';
	const isPassedOver = air === 'out' && told.overrides.includes('air');
	const stands: Record<string, boolean> = {
		account: day.otherBroken || told.coat === 'broken off',
		'one-go': day.late,
		list: !day.listDone,
		[`air ${air}`]: air !== 'ok' && !isPassedOver,
		'cup empty': cup === 'none',
		'cup other-material': cup === 'other' || cup === 'both',
		...(cup !== 'none' && {
			'cup dead': facts.alive !== true,
			'cup other-mix': facts.thinned !== true,
			'cup stood': facts.fresh !== true,
			'cup dying': facts.lasts !== true,
			'cup short': facts.enough !== true,
		}),
		'gun unknown': gun === null,
		...(gun && {
			'gun horns': gun.horns !== coat?.horns,
			'gun fan': gun.fanHeight_mm !== coat?.fanHeight_mm,
			'gun aged': facts.aged !== false,
		}),
	};
	const rung = (name: string) => inOrder.indexOf(name.split(':')[0] ?? '');
	return [...Object.keys(stands).filter(name => stands[name]), ...ofFace(told, facts.wet === true)].sort(
		(one, other) => rung(one) - rung(other),
	);
}

/** The states of a face whose stops differ, or could. */
function statesOf(machines: Machines): FacePair[] {
	const reasons = ['window', 'coats', 'air', 'touch'];
	const walked = reasons.flatMap(reason => faceWalk(face, [reason], machines).states);
	const states = [...walked, ...faceWalk(swept, [], machines).states];
	const seen = new Map<string, FacePair>();
	for (const pair of states) {
		const { coat: extent, overrides } = pair.told;
		const key = JSON.stringify([ofFace(pair.told, true), ofFace(pair.told, false), extent, overrides]);
		if (!seen.has(key)) seen.set(key, pair);
	}
	return [...seen.values()];
}

function contextOf(
	machines: Machines,
	{ face: state }: FacePair,
	day: Around,
	broken: FaceState,
): DayContext {
	const { context } = initialTransition(machines.day, twoByTwo.input)[0];
	const batch = (material: string) =>
		initialTransition(machines.batch, { material, order: topcoat.order })[0];
	const gun = initialTransition(gunMachine)[0];
	return {
		...context,
		faces: day.otherBroken ? [state, broken] : [state],
		batches: { A: batch('topcoat'), B: batch('primer') },
		cup: letters[day.cup],
		gun: day.gun ? transition(gunMachine, gun, { type: 'gun.found', found: day.gun })[0] : gun,
		listsDone: day.listDone ? ['before-spraying'] : ['clean-up'],
		late: day.late,
	};
}

/** Every question put to a state of a face, and what was answered otherwise than the rules have it. */
export function stopsWalk(machines: Machines = asTheyAre): {
	states: number;
	asked: number;
	broken: Broken[];
} {
	const states = statesOf(machines);
	const brokenOff = states.find(({ told }) => told.coat === 'broken off')?.face;
	if (!brokenOff)
		return { states: 0, asked: 0, broken: [{ property: 7, says: 'no pass is ever broken off' }] };
	const broken: Broken[] = [];
	let asked = 0;
	for (const pair of states)
		for (const day of around) {
			if (broken.length > 0) break;
			const context = contextOf(machines, pair, day, brokenOff);
			for (const facts of found) {
				asked++;
				const stops = machines.stopsOf(context, pair.face, facts).map(stop => {
					if (stop.by === 'aside') return `aside: ${stop.step ?? 'beside another'}`;
					if (stop.by === 'prep' || stop.by === 'tack') return `${stop.by}: ${stop.step} at ${stop.place}`;
					return 'is' in stop ? `${stop.by} ${stop.is}` : stop.by;
				});
				const expected = wanted(pair.told, day, facts);
				if (stops.join() !== expected.join())
					broken.push({
						property: 7,
						says: `${stops.join(', ') || 'nothing'} said where ${expected.join(', ') || 'nothing'} stands`,
					});
			}
		}
	return { states: states.length, asked, broken };
}
