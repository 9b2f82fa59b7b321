import { faceName, groupedFaces } from '../words/say.ts';
import { reachesMark, type Sights } from './marks.ts';
import { reason, seen } from './numbers.ts';
import type { Weighed } from './weigh.ts';

type Factor = { odds: number; says: string };

/** What the faces say of an explanation: those with marks that it reaches or does not, and sound ones that it reaches. */
function ofFaces(one: Weighed, sights: Sights): Factor[] {
	const { faces, faults } = sights.scene;
	const marked = new Map<string, { reached: string[]; left: string[] }>();
	const found: Factor[] = [];
	for (const [at, { id, marks, cleared, coats }] of faces.entries()) {
		const mask = one.reach[at] ?? 0;
		for (const mark of marks) {
			const kind = marked.get(mark.kind) ?? { reached: [], left: [] };
			const isTold = reachesMark(mask, mark) && one.cause.effect.has(mark.kind);
			(isTold ? kind.reached : kind.left).push(id);
			marked.set(mark.kind, kind);
		}
		const isSound = cleared !== null && coats.some(({ coat }) => coat <= cleared.coat);
		if (!isSound || marks.length > 0 || mask === 0) continue;
		const odds = 1 - seen * sights.shownAt(one.cause, at, mask);
		found.push({ odds, says: `${faceName(id)} had it too and was found sound` });
	}
	for (const [kind, { reached, left }] of marked) {
		const say = faults[kind]?.say ?? kind;
		if (reached.length > 0)
			found.push({ odds: 10 ** reached.length, says: `${groupedFaces(reached)}: ${say}, ${one.extent()}` });
		if (left.length > 0)
			found.push({ odds: 10 ** -left.length, says: `it does not explain ${say} on ${groupedFaces(left)}` });
	}
	return found;
}

/**
 * Why an explanation weighs what it does: every factor a sentence, the strongest on each side, never mixed.
 */
export function reasonsOf(one: Weighed, sights: Sights): { for: string[]; against: string[] } {
	const read = one.softs().map(({ odds, says }): Factor => ({ odds, says: says() }));
	const factors = [...new Map([...read, ...ofFaces(one, sights)].map(f => [f.says, f])).values()];
	const side = (isFor: boolean) =>
		factors
			.filter(({ odds }) => (isFor ? odds >= reason.for : odds <= reason.against))
			.sort((a, b) => (isFor ? b.odds - a.odds : a.odds - b.odds))
			.slice(0, reason.said)
			.map(({ says }) => says);
	return { for: side(true), against: side(false) };
}
