import { notAllowed } from '../errors.ts';
import { coatRun } from '../stage-keys.ts';
import type { Drafted, SprayDrafted } from './drafted.ts';
import { materialOn, type ShopOn } from './on-shelf.ts';
import { offeredBefore } from './preparation.ts';
import type { Read } from './question.ts';
import { wrongSoFar } from './sheet-written.ts';
import type { Growing } from './shelf-questions.ts';

/** Coats and sprays that a sheet takes. */

export const pieces = (answer: string): string[] =>
	answer
		.split(',')
		.map(one => one.trim())
		.filter(Boolean);

/** `tack, 2 full`: kinds that the material has. */
export function coatsRead(answer: string, kinds: readonly string[]): Read<string[]> {
	const coats = pieces(answer.replace(/^\[(.*)\]$/, '$1')).map(one => one.replaceAll(/\s+/g, ' '));
	if (coats.length === 0) return { wrong: `say which: ${kinds.join(', ')}, as in "2 ${kinds[0]}"` };
	for (const coat of coats) {
		const read = coatRun.safeParse(coat);
		const kind = coat.replace(/^\d+ /, '');
		if (!read.success) return { wrong: read.error.issues[0]?.message ?? '' };
		if (!kinds.includes(kind)) return { wrong: `no film is given for it; ${notAllowed(kind, kinds)}` };
	}
	return { is: coats };
}

export type Sofar = { drafted: Drafted; growing: Growing; shop: ShopOn };

/** A spray with the preparation that its windows want, or why it cannot be. */
export function prepared(
	{ drafted, growing, shop }: Sofar,
	spray: Omit<SprayDrafted, 'prep'>,
): Read<SprayDrafted> {
	const bare = { ...spray, prep: { wait: null, steps: [] } };
	const sprays = [...drafted.sprays, bare];
	const materials = new Map(
		sprays.flatMap(({ material }) => {
			const found = materialOn(growing.shelf, material);
			return found ? [[material, found] as const] : [];
		}),
	);
	const prep = offeredBefore(sprays, { materials, shop });
	return 'wrong' in prep ? prep : { is: { ...spray, prep: prep.is } };
}

/** … that a sheet takes, too. */
export function fitting(sofar: Sofar, spray: Omit<SprayDrafted, 'prep'>): Read<SprayDrafted> {
	const found = prepared(sofar, spray);
	if ('wrong' in found) return found;
	const { drafted, growing } = sofar;
	const wrong = wrongSoFar({ ...drafted, sprays: [...drafted.sprays, found.is] }, growing.shelf);
	return wrong === null ? found : { wrong };
}

/** Kinds of coat that a material has a film for. */
export const kindsOf = (growing: Growing, material: string): string[] =>
	Object.keys(materialOn(growing.shelf, material)?.coats ?? {});
