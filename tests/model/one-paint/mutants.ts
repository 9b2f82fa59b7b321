import { builtWith, type Change } from '../one-change.ts';

/**
 * Changes of the paint in plan, day, cup and report, each of which the sheets by chance must catch: they are no conditions of
 * a chart, and a figure that is wrong everywhere alike looks right.
 */

export type PaintMutant = Change & { what: string };

const mutant = (file: string, what: string, from: string, to: string): PaintMutant => ({
	file: `src/${file}`,
	what,
	from,
	to,
});

export const paintMutants: readonly PaintMutant[] = [
	mutant(
		'job/coats.ts',
		'paint planned from what lands, as if nothing passed the edges',
		'volume_mL: balance.emitted_mL',
		'volume_mL: balance.landed_mL / laid.setting.transfer',
	),
	mutant(
		'plan/planned-batches.ts',
		'a batch is worked out by the sheet, whatever the shop has learned',
		'sum + (pass ? paintOf_mL(pass, rates) : 0)',
		'sum + (pass ? pass.coat.volume_mL : 0)',
	),
	mutant(
		'plan/played-bench.ts',
		'nothing of a planned batch stays in pot and strainer',
		'make_mL - leftBehind_mL(shop.job)',
		'make_mL',
	),
	mutant(
		'plan/batches.ts',
		'a batch is sized as if its transfer were sure',
		'rates[material]?.unsure ?? unsureOf(transfer, transfer_tolerance)',
		'0 * unsureOf(transfer, transfer_tolerance)',
	),
	mutant(
		'plan/batches.ts',
		'nothing stays in the gun',
		'enoughFor_mL(uses, unsure) + lossesOf(gun).gun_mL',
		'enoughFor_mL(uses, unsure)',
	),
	mutant(
		'plan/rates.ts',
		'learning divides by what lands',
		'cup.emitted_mL += coat.volume_mL',
		'cup.emitted_mL += coat.landed_mL ?? 0',
	),
	mutant(
		'plan/rates.ts',
		'bursts on paper are learned as use of the faces',
		'- gun_mL - cup.bursts_mL',
		'- gun_mL',
	),
	mutant(
		'day/takes.ts',
		'the day counts by the sheet, whatever the shop has learned',
		'paintOf_mL({ coat }, rates)',
		'paintOf_mL({ coat }, {})',
	),
	mutant(
		'day/allowed.ts',
		'the rest of a face broken off wants a whole coat',
		'volume_mL: volume_mL * share',
		'volume_mL',
	),
	mutant(
		'day/enter.ts',
		'a face broken off and finished is taken from the cup twice',
		'(share - before) * volumeOf(',
		'share * volumeOf(',
	),
	mutant(
		'plan/cup-count.ts',
		'a burst on paper takes nothing from the cup',
		'cup_mL: Math.max(0, cup_mL - burst_mL)',
		'cup_mL',
	),
	mutant(
		'plan/paint-rule.ts',
		'each face starts as if it were the first of its cup',
		'wants_mL, levelSince.uses)',
		'wants_mL)',
	),
	mutant(
		'plan/paint-rule.ts',
		'a batch mixed on the day leaves nothing in pot and strainer',
		'burstsOf_mL(bench, faces) + leftBehind_mL(bench.job)',
		'burstsOf_mL(bench, faces)',
	),
	mutant(
		'plan/paint-rule.ts',
		'a batch is mixed for the next face alone',
		'let faces = restOf(bench);',
		'let faces: readonly Coming[] = bench.coming.slice(0, 1);',
	),
	mutant(
		'day/asks/ready.ts',
		'*ready* says what the sheet plans, not what the face still wants',
		'sum + wantedFor(moment, one).volume_mL',
		'sum + nextCoat(moment, one).volume_mL',
	),
	mutant(
		'records/bursts.ts',
		"bursts go by the gun's flow, whatever the knob is set to",
		'coats[(record.coat ?? 0) - 1] ?? {}',
		'({ flow_mL_per_min: gun.flow_mL_per_min })',
	),
	mutant(
		'report/tables/film.ts',
		'the report wants what the sheet plans, whatever the shop has learned',
		'wants_mL: takes(day.opened, coat).volume_mL',
		'wants_mL: coat.volume_mL',
	),
];

/** Sheets within which each is caught. */
export const sheetsToCatch = 10;

/**
 * The sheets on a program with one mutant in it.
 * @throws Error where the text to be changed is not there just once
 */
export async function onePaintWith(mutant: PaintMutant): Promise<typeof import('./days.ts').onePaintOn> {
	const days = await builtWith<typeof import('./days.ts')>('tests/model/one-paint/days.ts', mutant);
	return days.onePaintOn;
}
