import type { DayRecord } from '../day/records.ts';
import { noPulls, type Pulls, pull, pulledUntil_s } from '../trade/pulls.ts';
import type { RecordOf } from './of-type.ts';

/** One pass over one face: from its first stroke to its last. */
export type Pass = {
	face: string;
	coat: number;
	/** Begins it: the cup, the check, the air, the window and the overrides that it was sprayed under. */
	start: RecordOf<'face.started'>;
	/** What broke it off; null: nothing did. */
	broken: RecordOf<'break.began' | 'part.setAside'> | null;
	/** What was said of it after; null: nobody has. */
	end: RecordOf<'face.ended'> | null;
	/** It ran over its time. */
	late: RecordOf<'face.late'> | null;
	/** How much of the coat was on when it ended; `unsaid`: nobody said. */
	extent: 'all' | 'part' | 'none' | 'unsaid';
	/** Times are the face's share of a stretch, not its own. */
	estimated: boolean;
	/** Seconds that a trigger line says the trigger was pulled; null: no line spoke. */
	pulled_s: number | null;
};

const begun = (start: RecordOf<'face.started'>): Pass => ({
	face: start.face,
	coat: start.coat,
	start,
	broken: null,
	end: null,
	late: null,
	extent: 'unsaid',
	estimated: false,
	pulled_s: null,
});

/**
 * The passes of one day, in the order begun: each is begun, broken off perhaps, and then told what it laid. What a
 * trigger line says counts until it is broken off or told, or until the records end; a clock set back takes nothing off.
 * @param records of one day, in order
 */
export function passesOf(records: readonly DayRecord[]): Pass[] {
	const passes: Pass[] = [];
	const spraying = new Map<Pass, Pulls>();
	let now_ms = Number.NEGATIVE_INFINITY;
	const stop = (pass: Pass): void => {
		const said = spraying.get(pass);
		if (said) pass.pulled_s = pulledUntil_s(said, now_ms);
		spraying.delete(pass);
	};
	const last = ({ face, coat }: { face: string; coat: number }) =>
		passes.findLast(pass => pass.face === face && pass.coat === coat && pass.end === null);
	for (const record of records) {
		now_ms = Math.max(now_ms, Date.parse(record.at));
		switch (record.type) {
			case 'face.started': {
				const pass = begun(record);
				passes.push(pass);
				spraying.set(pass, noPulls);
				break;
			}
			case 'face.ended': {
				const pass = last(record);
				if (!pass) break;
				stop(pass);
				pass.end = record;
				pass.extent = record.extent;
				pass.estimated = record.estimated;
				break;
			}
			case 'face.late': {
				const pass = last(record);
				if (pass) pass.late = record;
				break;
			}
			case 'break.began':
			case 'part.setAside':
				for (const pass of spraying.keys()) {
					if (record.type === 'part.setAside' && !record.faces.includes(pass.face)) continue;
					pass.broken = record;
					stop(pass);
				}
				break;
			case 'trigger.on':
			case 'trigger.off':
				for (const [pass, said] of spraying)
					spraying.set(pass, pull(said, record.type === 'trigger.on', now_ms));
				break;
			default:
		}
	}
	for (const pass of [...spraying.keys()]) stop(pass);
	return passes;
}

/** Passes by the coat on the face that they belong to, in order. */
export function byCoat<One extends { face: string; coat: number }>(
	passes: readonly One[],
): Map<string, One[]> {
	const coats = new Map<string, One[]>();
	for (const pass of passes) put(coats, coatKey(pass), pass);
	return coats;
}

/** Puts one more under its name, after those already there. */
export function put<One>(sorted: Map<string, One[]>, name: string, one: One): void {
	const known = sorted.get(name);
	if (known) known.push(one);
	else sorted.set(name, [one]);
}

/** The name of a coat on a face, as `byCoat` has it. */
export const coatKey = ({ face, coat }: { face: string; coat: number }): string => `${face}#${coat}`;
