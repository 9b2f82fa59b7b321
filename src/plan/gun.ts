import { type Face, fanFor_mm, type Horns, type Job, type PlannedCoat } from '../job/job.ts';

/** How the gun must be set for one coat of one face. A tilt of the wrist touches nothing on the gun and is not in it. */
export type GunState = { material: string; horns: Horns; fanHeight_mm: number };

/** One coat of one face, as it stands in a stage. */
export type Pass = { face: Face; coat: PlannedCoat; count: number };

/** The gun state that a coat of a face wants. */
export const gunFor = (pass: Pass): GunState => ({
	material: pass.coat.material,
	horns: pass.coat.horns,
	fanHeight_mm: fanFor_mm(pass.face, pass.coat),
});

/** A gun state as one comparable word. */
export const gunKey = (gun: GunState): string => `${gun.material}\u0000${gun.horns}\u0000${gun.fanHeight_mm}`;

/** Whether going from one pass to the next leaves everything on the gun untouched. */
export const sameGun = (one: Pass, other: Pass): boolean => gunKey(gunFor(one)) === gunKey(gunFor(other));

/**
 * How often the gun is touched in a row of passes. Horns and fan height changed at one stop count once: it is
 * one stop, with one short check after it.
 */
export function turnsIn(passes: readonly Pass[]): number {
	let turns = 0;
	let before: Pass | undefined;
	for (const pass of passes) {
		if (before && !sameGun(before, pass)) turns += 1;
		before = pass;
	}
	return turns;
}

/**
 * The passes of one spray stage, coat by coat, faces in the order of the sheet.
 * @param stage the stage's place in `job.stages`
 * @returns for each coat its count on a face that no stage leaves out, and its passes; `count` of a pass is the
 *   coat's count on its own face
 */
export function passesOf(job: Job, stage: number): { coat: number; passes: Pass[] }[] {
	const kind = job.stages[stage];
	if (kind?.kind !== 'coats') return [];
	const before = coatsBefore(job, stage);
	return kind.coats.map((_, index) => ({
		coat: before + index + 1,
		passes: job.faces.flatMap(face =>
			face.coats.flatMap((coat, at) =>
				coat.stage === stage && coat.ofStage[0] === index + 1 ? [{ face, coat, count: at + 1 }] : [],
			),
		),
	}));
}

/** Coats that the stages before `stage` lay on a face that none of them leaves out. */
export function coatsBefore(job: Job, stage: number): number {
	return job.stages
		.slice(0, stage)
		.reduce((sum, each) => sum + (each.kind === 'coats' ? each.coats.length : 0), 0);
}
