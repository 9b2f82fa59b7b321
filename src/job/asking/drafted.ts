import type { Held } from '../shape-words.ts';

/** A sheet as far as the questions have come. */

export type FaceDrafted = { part: string; face: string };
export type PartDrafted = { name: string; count: number | null; shape: string; held: Held; faces: string[] };

/** What is done before a spray: a wait first, then steps of preparation, as they are typed. */
export type Prep = { wait: string | null; steps: readonly string[] };
export type SprayDrafted = {
	material: string;
	faces: readonly FaceDrafted[];
	/** As a stage has them: `2 full`. */
	coats: readonly string[];
	/** Coats of some of its faces alone. */
	own: readonly { face: FaceDrafted; coats: readonly string[] }[];
	/** Not before the next morning, whatever its windows say. */
	nextDay: boolean;
	prep: Prep;
	/** Null: not asked yet. */
	gun: string | null;
};
export type Drafted = {
	name: string;
	parts: readonly PartDrafted[];
	sprays: readonly SprayDrafted[];
	/** First day and hour, `2027-03-02 08:00`; null: still to do. */
	start: string | null;
};

export const facesOfAll = (parts: readonly PartDrafted[]): FaceDrafted[] =>
	parts.flatMap(({ name, faces }) => faces.map(face => ({ part: name, face })));

export const isSame = (one: FaceDrafted, other: FaceDrafted): boolean =>
	one.part === other.part && one.face === other.face;
export const isAmong = (faces: readonly FaceDrafted[], face: FaceDrafted): boolean =>
	faces.some(one => isSame(one, face));

/** As a sheet names it. */
export const faceName = ({ part, face }: FaceDrafted): string => `${part}/${face}`;

/** Names for faces: a part for all of its own, else each face by itself. */
export const namesFor = (faces: readonly FaceDrafted[], parts: readonly PartDrafted[]): string[] =>
	parts.flatMap(({ name, faces: all }) => {
		const its = all.map(face => ({ part: name, face })).filter(face => isAmong(faces, face));
		return its.length === all.length ? [name] : its.map(faceName);
	});

/** The faces that a name means: a part, a face by `part/face` or `part face`, or every face so called. */
export function facesMeant(said: string, parts: readonly PartDrafted[]): FaceDrafted[] {
	const plain = said.toLowerCase();
	const ways: ((face: FaceDrafted) => string[])[] = [
		({ part }) => [part],
		face => [faceName(face), `${face.part} ${face.face}`],
		({ face }) => [face],
	];
	for (const way of ways) {
		const found = facesOfAll(parts).filter(face => way(face).some(word => word.toLowerCase() === plain));
		if (found.length > 0) return found;
	}
	return [];
}
