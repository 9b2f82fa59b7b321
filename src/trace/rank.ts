import { put } from '../records/passes.ts';
import { clock, clockOn } from '../words/clock.ts';
import type { Clue, Suspicion } from './suspicion.ts';
import type { Pass } from './timeline.ts';

/** A measured departure of this share of its limit, or more, speaks for itself. This project's own choice. */
const farBeyond = 0.4;

/**
 * The rules of rank, the first that differs decides:
 * 1. how strongly the thing is doubted: measured far beyond its limit; changed with no reading after; measured a
 *    little beyond; a break with no reading after; a wait likewise; nothing logged; read right straight after;
 * 2. how many of the faces known bad it leaves unexplained;
 * 3. the size of the departure, in whole steps of its limit;
 * 4. the order in which the fault's sources put its causes;
 * 5. how few of the faces known good it would have spoilt too;
 * 6. nearest before the first bad face.
 */
function grade({ kind, size }: Clue): number {
	if (kind === 'measured') return size >= farBeyond ? 0 : 2;
	return { changed: 1, break: 3, wait: 4, open: 5, cleared: 6 }[kind];
}

/** What is known of the faces: each bad one with the passes it may have got the fault in, and those found good. */
export type Known = { bad: Pass[][]; good: Pass[]; order: readonly string[] };

const explained = (clue: Clue, known: Known): number =>
	known.bad.filter(passes => passes.some(pass => clue.explains(pass))).length;

export type Candidate = {
	code: string;
	at: string;
	reasons: string[];
	/** Whether a record or a reading speaks for it, or only the lack of them. */
	told: boolean;
};

type Ranked = { suspicion: Suspicion; clue: Clue; key: number[] };

function keyOf(suspicion: Suspicion, clue: Clue, known: Known): number[] {
	const order = known.order.indexOf(suspicion.code);
	const spoilt = known.good.filter(pass => clue.explains(pass)).length;
	return [
		grade(clue),
		known.bad.length - explained(clue, known),
		-Math.min(2, Math.floor(clue.size)),
		order < 0 ? known.order.length : order,
		spoilt,
		-clue.at,
	];
}

function before(a: Ranked, b: Ranked): number {
	for (const [nth, value] of a.key.entries()) {
		const other = b.key[nth] ?? 0;
		if (value !== other) return value - other;
	}
	return 0;
}

const words: Record<Clue['kind'], string> = {
	measured: 'measured beyond its limit',
	changed: 'changed, with no reading after',
	break: 'a break, with no reading after',
	wait: 'a wait, with no reading after',
	open: 'no record for or against',
	cleared: 'read right straight after',
};

function reasonsOf(best: Ranked, others: readonly Ranked[], known: Known, zone: string): string[] {
	const { clue } = best;
	const bad = explained(clue, known);
	const spoilt = known.good.filter(pass => clue.explains(pass)).length;
	return [
		clue.pulled ? "by the sheet's flow, from its pulls, not measured" : words[clue.kind],
		`${clock(clue.at, zone)}: ${clue.reason}`,
		...(known.bad.length > 1 ? [`explains ${bad} of ${known.bad.length} bad faces`] : []),
		...(known.good.length > 0 ? [`would have spoilt ${spoilt} of ${known.good.length} good faces too`] : []),
		...others
			.filter(other => other.clue.kind !== 'open' && other.clue.kind !== 'cleared')
			.map(other => `also ${clockOn(other.clue.at, clue.at, zone)}: ${other.clue.reason}`),
	];
}

/** Puts everything that may have been wrong in order, one entry for each kind of cause. */
export function rank(
	suspicions: readonly Suspicion[],
	known: Known,
	zone: string,
): { candidate: Candidate; suspicion: Suspicion }[] {
	const all = suspicions
		.flatMap(suspicion =>
			suspicion.clues.map(clue => ({ suspicion, clue, key: keyOf(suspicion, clue, known) })),
		)
		.sort(before);
	const byCode = new Map<string, Ranked[]>();
	for (const one of all) put(byCode, one.suspicion.code, one);
	const ranked: { candidate: Candidate; suspicion: Suspicion }[] = [];
	for (const [code, [best, ...others]] of byCode)
		if (best)
			ranked.push({
				suspicion: best.suspicion,
				candidate: {
					code,
					at: new Date(best.clue.at).toISOString(),
					reasons: reasonsOf(best, others, known, zone),
					told: grade(best.clue) < 3,
				},
			});
	return ranked;
}
