import { gearSaid } from '../../job/breathing.ts';
import { inert } from '../../job/inert.ts';
import type { Material } from '../../job/job.ts';
import { sentence } from '../../words/say.ts';
import { faceOf, laidOn, type Moment, materialOf } from '../moment.ts';

/** What is said where it is due and asked nowhere: a question that is always answered alike is soon no question. */

/** Sources: 29 CFR 1910.107(d)(2), from memory; New York City Mechanical Code 502.7.3.1, the same sentence. */
export const extractStaysOn = 'Extractor: on until the parts give off no vapour.';

/** Ear plugs: 85 dB(A), 29 CFR 1910.95, from memory; spraying measures about 93 dB(A), a trade noise survey. */
export const suitUp = 'Suit up, ear plugs in';

/**
 * Eyes and skin at mixing: 29 CFR 1910.133, 1910.138 and 1910.151(c), from memory; NIOSH 96-111 for the skin. Extract:
 * isocyanate is breathed while it is poured, HSE motor vehicle repair pages. The gear is what the material's sheet names.
 */
export const mixingGear = ({ breathing }: Material): string => {
	const gear = inert(gearSaid(breathing?.mixing) ?? 'breathing gear');
	return sentence(`${gear}, goggles, gloves, extractor on; eye wash in reach.`);
};

/** Source: 29 CFR 1910.106(e)(6)(ii), second-hand. A pot of plastic takes no clip. */
export const bondedPour = 'Metal can and pot: bonded to earth while you pour.';

/** Extract while solvent is wiped: 29 CFR 1910.107(g)(5), as WAC 296-24-37013(5) words it. Plastic: common practice, no source. */
const wiping: readonly string[] = [
	'Extractor and gloves on: a degreaser gives off vapour.',
	'Plastic: wipe it damp, never dry. A dry cloth charges it.',
];

/**
 * Sources: lead, 29 CFR 1910.1025(h)(2): no compressed air, vacuum before broom; chromate, 1910.1026(j), from memory; air hose
 * on dust, 1910.242(b), from memory.
 */
const oldPaint = 'Old paint: leaded or chromated until tested. Vacuum or wet: no air hose, no dry broom.';

const abrades = (step: string): boolean => step === 'sand' || step === 'scuff';

/** Nothing was sanded on this job yet, today or on an earlier day. */
const isFirstSanding = ({ state }: Moment): boolean =>
	[...state.book.faces.values()].every(
		({ prep, aside }) =>
			!prep.some(({ step }) => abrades(step)) && !aside?.rework.some(({ step }) => step === 'sand'),
	);

/** The gear for the dust of the coat that is sanded; what lies under the first coat of a job no sheet of it tells. */
function dustGear(moment: Moment, face: string): string {
	const laid = laidOn(moment, face);
	const material = laid > 0 ? faceOf(moment, face).coats[laid - 1]?.material : undefined;
	const gear = material === undefined ? null : gearSaid(materialOf(moment, material).breathing?.sanding);
	return `Dust protection on${gear ? `: ${inert(gear)}` : ''}. Film not fully cured is still a hazard.`;
}

/** Touching a coat: as its data sheet words it. Lifting: HSE INDG143, 25 kg at best, less at arm's length; from memory. */
const turning: readonly string[] = [
	'Dry to handle, by its data sheet? Hold it where no coat is.',
	'Over 20 kg: two people, or a hoist.',
];

/** What is said at a step of preparation of a face. */
export function atPrep(moment: Moment, step: string, face: string): string[] {
	if (step === 'wipe') return [...wiping];
	if (step === 'turn over') return [...turning];
	if (!abrades(step)) return [];
	return [dustGear(moment, face), ...(isFirstSanding(moment) ? [oldPaint] : [])];
}
