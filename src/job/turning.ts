import type { Source } from './document.ts';
import type { FaceDraft } from './faces.ts';
import { brief } from './inert.ts';
import type { StageRead } from './stages.ts';

/**
 * A part that lies flat is sprayed on one side with all coats of a stage, turned over, and sprayed on the other: nobody
 * picks it up by a wet face.
 */

/** The faces that are reached once their part is turned over; *taken*: the sheet does not say so, but two of it lie flat. */
export type OtherSides = ReadonlyMap<string, 'said' | 'taken'>;

const waitsFor = (face: FaceDraft, other: FaceDraft): boolean =>
	face.after.some(({ value }) => value === other.name || value === other.id);

/** As the faces of one part say; of two that lie flat the second, and with it what need not go before the first. */
function otherSideOf(faces: readonly FaceDraft[]): [string, 'said' | 'taken'][] {
	if (faces.some(({ holdBy }) => holdBy !== undefined)) return [];
	if (faces.some(({ entry }) => entry.has('turned over')))
		return faces.flatMap(({ id, entry }) => (entry.values['turned over'] ? [[id, 'said']] : []));
	const flat = faces.filter(({ entry }) => entry.values.attitude === 'flat');
	if (flat.length < 2) return [];
	const first = flat.find(face => !flat.some(other => waitsFor(face, other))) ?? flat[0];
	return faces.flatMap(face =>
		face === first || (first && waitsFor(first, face)) ? [] : [[face.id, 'taken']],
	);
}

/** The other side of every part that has one. */
export const otherSides = (faces: readonly FaceDraft[]): OtherSides =>
	new Map(
		[...new Set(faces.map(({ part }) => part))].flatMap(part =>
			otherSideOf(faces.filter(face => face.part === part)),
		),
	);

/** A part that is held in some way lies on one of its sides: which of two is turned up, and by what, is never guessed there. */
export function checkHeld(source: Source, faces: readonly FaceDraft[], sides: OtherSides): void {
	for (const { id, part, asHeld, entry } of faces)
		if (asHeld && sides.get(id) === 'taken')
			source.fail(
				entry.at,
				`part ${part}: two of its faces lie flat, and wet; write "turned over: yes" under one of them, or "hold by: hook" for the part`,
			);
}

/** Those and every face that goes after one of them. */
function withFollowers(
	sides: OtherSides,
	after: ReadonlyMap<string, readonly { value: string }[]>,
): Set<string> {
	const late = new Set(sides.keys());
	for (let before = -1; before !== late.size; ) {
		before = late.size;
		for (const [face, its] of after) if (its.some(({ value }) => late.has(value))) late.add(face);
	}
	return late;
}

type Sheet = {
	faces: readonly FaceDraft[];
	sides: OtherSides;
	/** `after` of every face, as ids. */
	after: ReadonlyMap<string, readonly { value: string; at: number }[]>;
};

const leaving = (read: StageRead, faces: readonly string[]): StageRead => ({
	...read,
	leftOut: new Set([...read.leftOut, ...faces]),
});

const doesOne =
	(...steps: readonly string[]) =>
	({ stage }: StageRead): boolean =>
		stage?.kind === 'prep' && steps.includes(stage.step);
const wipes = doesOne('wipe', 'tack');
const abrades = doesOne('sand', 'scuff');

/** A face that lies on the first side, and waits for one that is reached by turning its part over. */
function checkSides(source: Source, late: ReadonlySet<string>, { faces, sides, after }: Sheet): void {
	for (const { id, part, entry } of faces) {
		const isFirst = entry.values.attitude === 'flat' && !sides.has(id);
		if (!isFirst || !late.has(id) || !faces.some(face => face.part === part && sides.get(face.id) === 'said'))
			continue;
		const [waits] = (after.get(id) ?? []).filter(({ value }) => late.has(value));
		source.fail(
			waits?.at ?? entry.at,
			`${entry.name}, after: ${brief(waits?.value ?? '')} is reached once the part is turned over, and this face before; take it out`,
		);
	}
}

type Side = 'first' | 'other';
const across = { first: 'other', other: 'first' } as const;

/** Which side of each part lies up behind some stages; of one that they neither spray nor turn over nobody knows. */
type Up = Map<string, Side>;

const turningOf = (read: StageRead, faces: readonly string[], ids: readonly string[]): StageRead => ({
	at: read.at,
	stage: { kind: 'prep', name: 'turn over', step: 'turn over', grit: null },
	leftOut: new Set(ids.filter(id => !faces.includes(id))),
});

type Sides = {
	/** The stage that laid the last coat on their parts; -1: none has. */
	coated: number;
	up: readonly string[];
	since: readonly string[];
	/** What is turned first, where a part shows the side that is worked on last; and between the two. */
	turnings: readonly [before: readonly StageRead[], between: readonly StageRead[]];
};

/**
 * Work since some parts were coated, one side of their parts after the other: what is done to the faces that lie `up`,
 * the turning where there is one, and what is done to all others. Nothing is done to a face that lies down.
 */
function bySide(
	stages: StageRead[],
	{ coated, up, since, turnings: [before, turning] }: Sides,
	ids: readonly string[],
): void {
	const isOf = (faces: readonly string[], { leftOut }: StageRead) => faces.some(id => !leftOut.has(id));
	const isWork = (one: StageRead, at: number) => at > coated && one.stage?.kind === 'prep';
	const first = stages.findIndex((one, at) => isWork(one, at) && isOf(since, one));
	const from = first < 0 ? stages.length : first;
	const after = stages.findIndex((one, at) => at >= from && !isWork(one, at));
	const run = stages.slice(from, after < 0 ? stages.length : after);
	const rest = ids.filter(id => !up.includes(id));
	const some = (left: readonly string[], faces: readonly string[]) =>
		run.map(one => leaving(one, left)).filter(one => isOf(faces, one));
	stages.splice(from, run.length, ...before, ...some(rest, up), ...turning, ...some(up, rest));
}

/** Of some faces those that were sanded since the stage that coated them last. */
const sandedOf = (stages: readonly StageRead[], faces: readonly string[]): string[] =>
	faces.filter(id => {
		const its = stages.filter(({ leftOut }) => !leftOut.has(id));
		return its.slice(its.findLastIndex(({ stage }) => stage?.kind === 'coats') + 1).some(abrades);
	});

/**
 * The stages of a sheet with every spray stage that reaches both sides of a part in two: one side of all parts, the
 * turning, the other. The wiping and tacking just before it is done on each side in its turn; dust is wiped off both
 * before the first is sprayed. Work is done on the side that lies up: what a part shows first, then, turned where an
 * earlier stage left it so, what is sprayed first.
 */
export function turnedOver(
	source: Source,
	reads: readonly StageRead[],
	{ faces, sides, after }: Sheet,
): StageRead[] {
	const ids = faces.map(({ id }) => id);
	const asBuilt = { faces, sides, late: withFollowers(sides, after) };
	checkSides(source, asBuilt.late, { faces, sides, after });
	/** Faces and their sides as parts are held in a stage. */
	const groundOf = ({ held }: StageRead): typeof asBuilt => {
		if (!held) return asBuilt;
		const its = faces.map(face => ({ ...face, entry: held.get(face.id) ?? face.entry }));
		const turns = otherSides(its);
		checkHeld(source, its, turns);
		return { faces: its, sides: turns, late: withFollowers(turns, after) };
	};
	/** One side of all parts, the turning, the other; what is sanded of the other, before it is turned down. */
	const bothSides = (before: StageRead[], read: StageRead, turned: readonly string[]): StageRead[] => {
		const { late } = groundOf(read);
		const here = ids.filter(id => !read.leftOut.has(id));
		const others = here.filter(id => late.has(id));
		const now = here.filter(id => !late.has(id));
		const wiped = before.splice(before.findLastIndex(one => !wipes(one)) + 1);
		const dusty = sandedOf(before, others);
		const clean = others.filter(id => !dusty.includes(id));
		before.push(...wiped.map(one => leaving(one, doesOne('wipe')(one) ? clean : others)));
		return [
			leaving(read, others),
			turningOf(read, turned, ids),
			...[...wiped, read].map(one => leaving(one, now)),
		];
	};
	const sided = new Set(faces.filter(({ id }) => sides.has(id)).map(({ part }) => part));
	const up: Up = new Map();
	const partOf = new Map(faces.map(({ id, part }) => [id, part]));
	const lastCoat = (before: readonly StageRead[], part: string | undefined): number =>
		before.findLastIndex(
			({ stage, leftOut }) =>
				stage?.kind === 'coats' && faces.some(face => face.part === part && !leftOut.has(face.id)),
		);
	/** Parts that the sheet itself turns over since their last coat. */
	const saidOn = new Set<string>();
	const stages: StageRead[] = [];
	for (const [nth, read] of reads.entries()) {
		const { faces: its, sides: turns, late } = groundOf(read);
		const here = its.filter(({ id }) => !read.leftOut.has(id));
		if (doesOne('turn over')(read))
			for (const part of new Set(here.map(one => one.part))) {
				const side = up.get(part);
				if (side) up.set(part, across[side]);
				saidOn.add(part);
			}
		if (read.stage?.kind !== 'coats') {
			stages.push(read);
			continue;
		}
		const lying = new Set(its.filter(({ id }) => turns.has(id)).map(({ part }) => part));
		const firstOf = new Set(here.filter(({ id }) => !late.has(id)).map(({ part }) => part));
		const begins = ({ part }: FaceDraft): Side => (firstOf.has(part) ? 'first' : 'other');
		const isOnIt = (face: FaceDraft): boolean =>
			begins(face) === 'first' ? !late.has(face.id) : turns.has(face.id);
		const wrongUp = new Set(
			here.flatMap(face => {
				const lies = up.get(face.part);
				return lying.has(face.part) && lies !== undefined && lies !== begins(face) && isOnIt(face)
					? [face.part]
					: [];
			}),
		);
		const isCoatedYet = ({ id }: FaceDraft): boolean =>
			reads.slice(nth).some(({ stage, leftOut }) => stage?.kind === 'coats' && !leftOut.has(id));
		/** Sanded faces of the other side, of parts that lie so. */
		const dustyBelow = (lies: Side | undefined): string[] =>
			sandedOf(
				stages,
				here.flatMap(({ id, part }) =>
					late.has(id) && firstOf.has(part) && up.get(part) === lies ? [id] : [],
				),
			);
		const dusty = dustyBelow('first');
		const below = its.filter(({ id, part }) => dusty.includes(id) && turns.has(id) && !saidOn.has(part));
		const beneath = below.map(({ id }) => id);
		const twice = new Set(below.map(({ part }) => part));
		const isTurnedBack = ({ part }: FaceDraft): boolean => wrongUp.has(part) || twice.has(part);
		/** Whatever of that side gets a coat yet: nothing is done to it before it lies up. */
		const back = its
			.filter(face => isTurnedBack(face) && isOnIt(face) && isCoatedYet(face))
			.map(({ id }) => id);
		const turned = here.filter(({ id, part }) => turns.has(id) && firstOf.has(part));
		const over = turned.map(({ id }) => id);
		/** Of a part that no stage has laid down yet. */
		const downNext = dustyBelow(undefined);
		const sprayed = over.length === 0 ? [read] : bothSides(stages, read, over);
		const lieUp = its.flatMap(face =>
			isTurnedBack(face) ? (isOnIt(face) ? [] : [face.id]) : downNext.includes(face.id) ? [face.id] : [],
		);
		const turning = (faces: readonly string[]) => (faces.length > 0 ? [turningOf(read, faces, ids)] : []);
		const coatedLast = new Map([...back, ...lieUp].map(id => [id, lastCoat(stages, partOf.get(id))]));
		for (const coated of [...new Set(coatedLast.values())].toSorted((one, other) => other - one)) {
			const own = (all: readonly string[]) => all.filter(id => coatedLast.get(id) === coated);
			const since = own(back).length > 0 ? own([...back, ...beneath]) : own(lieUp);
			const turnings = [turning(own(beneath)), turning(own(back))] as const;
			bySide(stages, { coated, up: own(lieUp), since, turnings }, ids);
		}
		for (const { part } of here) saidOn.delete(part);
		for (const face of here)
			if (lying.has(face.part)) up.set(face.part, begins(face));
			else if (sided.has(face.part)) up.delete(face.part);
		for (const { part } of turned) up.set(part, 'other');
		stages.push(...sprayed);
	}
	return stages;
}
