import type { Cause, Spot } from './causes.ts';
import type { PlantedDay } from './day.ts';
import { given } from './habits.ts';
import type { Pass } from './hidden.ts';

/** Where a cause may lie on a day, and how likely the schemes of this room put it there. */

export type Possible = { extent: readonly Spot[]; share: number };

const partOf = (face: string): string => face.split('/')[0] ?? '';

/** Each equally likely; those without a pass are none. */
function even(extents: readonly (readonly Pass[])[]): Possible[] {
	const some = extents.filter(({ length }) => length > 0);
	return some.map(extent => ({ extent, share: 1 / some.length }));
}

function batches({ passes, records }: PlantedDay): Possible[] {
	const letters = records.flatMap(one => (one.type === 'batch.started' ? [one.batch] : []));
	return even(letters.slice(0, 3).map(letter => passes.filter(pass => pass.letters.includes(letter))));
}

/** From any pass to any look after it; `ends`: how likely each look ends it. */
function spans({ passes, records }: PlantedDay, ends: number): Possible[] {
	const looks = records.flatMap(one => (one.type === 'gun.checked' ? [one.at] : []));
	return passes.flatMap((_, from) => {
		const rest = passes.slice(from);
		const after = looks.filter(at => at > (rest[0]?.at ?? ''));
		const cut = after.map((at, nth) => ({
			extent: rest.filter(pass => pass.at <= at),
			share: (ends * (1 - ends) ** nth) / passes.length,
		}));
		return [...cut, { extent: rest, share: (1 - ends) ** after.length / passes.length }];
	});
}

const tails = ({ passes }: PlantedDay): Possible[] => even(passes.map((_, from) => passes.slice(from)));

function hands({ passes }: PlantedDay): Possible[] {
	const faces = [...new Set(passes.map(({ face }) => face))];
	const ofFace = even(faces.map(face => passes.filter(pass => pass.face === face)));
	const ofPart = even(faces.map(face => passes.filter(pass => partOf(pass.face) === partOf(face))));
	const spells = even(passes.flatMap((_, from) => [2, 3, 4, 5].map(long => passes.slice(from, from + long))));
	return [
		...ofFace.map(({ extent, share }) => ({ extent, share: share / 4 })),
		...ofPart.map(({ extent, share }) => ({ extent, share: share / 4 })),
		...spells.map(({ extent, share }) => ({ extent, share: share / 2 })),
	];
}

/** The coats of one round, on a part or on all, from any pass of a later coat. */
function rounds({ passes }: PlantedDay): Possible[] {
	const later = passes.filter(({ coat }) => coat > 1);
	return even(
		later.flatMap(first => {
			const at = passes.indexOf(first);
			const round = passes.slice(at, at + 6).filter(({ coat }) => coat === first.coat);
			return [round, round.filter(({ face }) => partOf(face) === partOf(first.face))];
		}),
	);
}

/** What is left of a batch from any pass on. */
function ends({ passes }: PlantedDay): Possible[] {
	return even(
		passes.map((first, from) =>
			passes.slice(from).filter(({ letters }) => letters.includes(first.letters.at(-1) ?? '')),
		),
	);
}

function firstCoats({ passes }: PlantedDay): Possible[] {
	const parts = [...new Set(passes.map(({ face }) => partOf(face)))];
	return even(parts.map(part => passes.filter(({ face, coat }) => coat === 1 && partOf(face) === part)));
}

function touched({ passes }: PlantedDay): Possible[] {
	const wide = 0.4;
	return passes.flatMap(pass => [
		{ extent: [pass], share: (1 - wide) / passes.length },
		{
			extent: passes.filter(({ face, coat }) => coat === pass.coat && partOf(face) === partOf(pass.face)),
			share: wide / passes.length,
		},
	]);
}

export function extentsOf({ code, form }: Cause, day: PlantedDay): Possible[] {
	switch (code) {
		case 'fan-along-stroke':
		case 'bad-pattern':
		case 'pressure-off':
			return spans(day, given.looks + given.mendsFirst);
		case 'air-line':
			return spans(day, 0.1);
		case 'air-out-of-limits':
			return form === '' ? [] : tails(day);
		case 'gun-too-near':
		case 'gun-too-far':
		case 'film-too-heavy':
		case 'film-too-light':
			return hands(day);
		case 'face-missed':
		case 'too-many-coats':
			return even(day.passes.map(pass => [pass]));
		case 'coat-too-early':
		case 'window-missed':
			return rounds(day);
		case 'batch-too-old':
			return ends(day);
		case 'surface':
			return firstCoats(day);
		case 'handling':
			return touched(day);
		case 'not-stood':
			return day.records.some(one => one.type === 'batch.stood') ? batches(day) : [];
		default:
			return batches(day);
	}
}
