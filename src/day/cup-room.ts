import { wantedFor } from './allowed.ts';
import { gunNext } from './guns.ts';
import { fullFor_mL } from './level.ts';
import { faceOf, jobOf, type Moment, nextCoat } from './moment.ts';

/** A cup fuller than this spills through its lid when the gun is laid over: common practice, no source. */
const leanedShare = 0.75;

/** How full the cup may be, and whether it is a gun laid over that it may be no fuller for. */
export type CupRoom = { most_mL: number; leaned: boolean };

/**
 * How full the cup may be filled before some faces: as much as it takes, less where the gun is laid over for one of them
 * before the rest is sprayed; never less than the first of them wants at the sheet's risk.
 * @param ids faces in the order in which they are sprayed
 */
export function cupRoom(moment: Moment, ids: readonly string[]): CupRoom {
	const [first] = ids;
	const { cup_mL, cupKind } = first === undefined ? jobOf(moment).gun : gunNext(moment, first);
	const whole = { most_mL: cup_mL, leaned: false };
	if (cupKind === 'pressure') return whole;
	let sprayed_mL = 0;
	const room = ids.reduce((least, id) => {
		const laidOver_mL =
			faceOf(moment, id).tilt === 0 ? Number.POSITIVE_INFINITY : sprayed_mL + leanedShare * cup_mL;
		sprayed_mL += wantedFor(moment, id).volume_mL;
		return laidOver_mL < least.most_mL ? { most_mL: laidOver_mL, leaned: true } : least;
	}, whole);
	const wanted_mL =
		first === undefined
			? 0
			: Math.min(
					cup_mL,
					fullFor_mL(moment.state.book, nextCoat(moment, first), [wantedFor(moment, first).volume_mL]),
				);
	return { ...room, most_mL: Math.max(room.most_mL, wanted_mL) };
}
