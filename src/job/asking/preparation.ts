import type { Material, Window } from '../job.ts';
import { ownFactor } from '../process-clocks.ts';
import { isStepKey, stepKeys } from '../stage-keys.ts';
import { some } from '../values.ts';
import { windowsAt } from '../windows.ts';
import { type FaceDrafted, faceName, type Prep, type SprayDrafted } from './drafted.ts';
import type { ShopOn } from './on-shelf.ts';
import type { Read } from './question.ts';

/** What stands under a face, and how many nights ago; null: nothing, it is bare. */
type Under = { material: Material; nights: number } | null;
type Ground = { materials: ReadonlyMap<string, Material>; shop: ShopOn };

/** So long after a coat, so many nights later, a day may still be at work on it, h. A shop is open 12 h at most. */
const latest_h = (nights: number): number => (nights === 0 ? 0 : nights * 24 + 12);
/** A night where the shop's hours are not known, h; from closing to opening. Usual, not measured. */
const usualNight = '16 h';
export const nightOf = ({ isOpenByDay }: ShopOn): string => (isOpenByDay ? 'overnight' : usualNight);

/** What the recoat windows want before a coat: the same day, and the next morning; null: they are shut. */
type Wants = { today: Window | null; tomorrow: Window | null };

function wantsOver(material: Material, { material: under, nights }: NonNullable<Under>, shop: ShopOn): Wants {
	const rows = material.recoat.find(one => one.under === under.id)?.rows;
	if (!rows) return { today: null, tomorrow: null };
	const windows = windowsAt(rows, shop.air_C, ownFactor(material));
	if (!windows) return { today: 'sand', tomorrow: 'sand' };
	const openPast = (hours: number) =>
		windows.filter(({ does, until_h }) => does !== 'wait' && (until_h ?? Number.POSITIVE_INFINITY) > hours);
	return {
		today: openPast(latest_h(nights)).at(0)?.does ?? null,
		tomorrow: openPast(latest_h(nights + 1)).at(0)?.does ?? null,
	};
}

function stepsFor(unders: readonly Under[], wants: readonly (Window | null)[], isWaited: boolean): string[] {
	const isBare = unders.includes(null);
	const grit = unders.find(under => under?.material.grit)?.material.grit;
	const abrades = wants.includes('sand')
		? [grit ? `sand ${grit} grit` : 'sand']
		: isBare || wants.includes('scuff')
			? ['scuff']
			: [];
	const cleans = isBare || abrades.length > 0 || isWaited ? ['wipe', 'tack'] : [];
	return [...(isBare ? ['degrease'] : []), ...abrades, ...cleans];
}

/** The preparation that the recoat windows want before a spray; or between which materials they are shut. */
function prepFor(spray: SprayDrafted, unders: readonly Under[], { materials, shop }: Ground): Read<Prep> {
	const material = materials.get(spray.material);
	if (!material) return { wrong: `${spray.material} is not on the shelf` };
	const coated = unders.filter(under => under !== null);
	const wants = coated.map(under => ({ under, ...wantsOver(material, under, shop) }));
	const isNextDay = spray.nextDay || (wants.length > 0 && wants.every(({ tomorrow }) => tomorrow !== null));
	const shut = wants.find(one => (isNextDay ? one.tomorrow : one.today) === null);
	if (shut)
		return {
			wrong: `no recoat window of ${material.id} over ${shut.under.material.id} is open then; add it to the shelf`,
		};
	const asked = wants.map(({ today, tomorrow }) => (isNextDay ? tomorrow : today));
	return { is: { wait: isNextDay ? nightOf(shop) : null, steps: stepsFor(unders, asked, isNextDay) } };
}

/**
 * What is offered before the last of some sprays, by the recoat windows at the shop's usual air.
 * @returns `wrong` where they are shut: no wait and no sanding opens them
 */
export function offeredBefore(sprays: readonly SprayDrafted[], ground: Ground): Read<Prep> {
	const under = new Map<string, NonNullable<Under>>();
	const underOf = (face: FaceDrafted): Under => under.get(faceName(face)) ?? null;
	for (const [nth, spray] of sprays.entries()) {
		if (nth === sprays.length - 1) return prepFor(spray, spray.faces.map(underOf), ground);
		if (spray.prep.wait !== null)
			for (const [face, its] of under) under.set(face, { ...its, nights: its.nights + 1 });
		const material = ground.materials.get(spray.material);
		if (material) for (const face of spray.faces) under.set(faceName(face), { material, nights: 0 });
	}
	return { wrong: 'nothing is sprayed' };
}

export const prepSaid = ({ wait, steps }: Prep): string =>
	[...(wait === null ? [] : [wait]), ...steps].join(', ') || 'none';

const allowed = stepKeys.filter(step => !['mask', 'unmask', 'turn over', 'inspect'].includes(step));

/** `overnight, sand 320 grit, wipe, tack`: a wait only at its beginning, each step once. */
export function prepRead(answer: string): Read<Prep> {
	if (answer === 'none') return { is: { wait: null, steps: [] } };
	const words = answer.split(',').map(one => one.trim().replaceAll(/\s+/g, ' '));
	const [first = ''] = words;
	const isWait = first === 'overnight' || some('time').safeParse(first).success;
	const steps = words.slice(isWait ? 1 : 0);
	const names = steps.map(step => step.replace(/ P?\d+( grit)?$/, ''));
	const wrong = names.find(
		(name, nth) => !isStepKey(name) || !allowed.includes(name) || names.indexOf(name) < nth,
	);
	const grits = steps.filter((step, nth) => step !== names[nth]);
	if (wrong !== undefined || grits.some(step => !/^(sand|scuff) /.test(step)))
		return { wrong: `each once: ${allowed.join(', ')}; a wait first, as in "overnight"; or none` };
	return { is: { wait: isWait ? first : null, steps } };
}
