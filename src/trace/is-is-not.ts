import { clock } from '../words/clock.ts';
import { faceOf, planOf } from './ground.ts';
import type { Scene } from './marks.ts';
import { curves } from './numbers.ts';
import type { Pass, Timeline } from './timeline.ts';

/** One face, bad or sound, by what may tell it from others: `batch` → B. */
type Told = Map<string, Set<string>>;

const tell = (told: Told, by: string, what: string) => told.set(by, new Set([...(told.get(by) ?? []), what]));

function toldBy(timeline: Timeline, passes: readonly Pass[], zone: string, cuts: readonly number[]): Told {
	const told: Told = new Map();
	for (const pass of passes) {
		for (const letter of pass.start.cup) {
			tell(told, 'batch', letter);
			for (const { record } of timeline.batches.get(letter)?.pours ?? [])
				if (record.type === 'batch.poured') tell(told, `${record.component} can`, record.can);
		}
		tell(told, 'coat', `${pass.coat}`);
		const face = faceOf(timeline, pass.face);
		tell(told, 'part', face?.part ?? pass.face);
		const horns = planOf(timeline, pass)?.horns;
		if (horns) tell(told, 'horns', horns);
		if (face) tell(told, 'gun', face.tilt === 0 ? 'held level' : 'tilted');
		const air = timeline.days[pass.day]?.air.findLast(({ at }) => at <= pass.began)?.record;
		const [humid, dry] = [curves.humid?.was[0] ?? 1, curves.humid?.not[0] ?? 0];
		if (air) tell(told, 'air', air.humidity > (humid + dry) / 2 ? 'damp' : 'dry');
		for (const cut of cuts) tell(told, clock(cut, zone), pass.began >= cut ? 'after' : 'before');
	}
	return told;
}

const said = (by: string, what: string): string => {
	if (what === 'after' || what === 'before') return `${what} ${by}`;
	return `${by} ${what}`;
};

type Description = { by: string; what: string }[];
const fits = (told: Told, description: Description): boolean =>
	description.every(({ by, what }) => told.get(by)?.has(what) === true);

/** Every description of one or two words that any bad face has. */
function descriptions(bad: readonly Told[]): Description[] {
	const one = new Map<string, Description[number]>();
	for (const told of bad)
		for (const [by, all] of told)
			for (const what of all) if (what !== 'before') one.set(`${by} ${what}`, { by, what });
	const ones = [...one.values()];
	const two = ones.flatMap((a, at) => ones.slice(at + 1).flatMap(b => (a.by === b.by ? [] : [[a, b]])));
	return [...ones.map(only => [only]), ...two];
}

const share = (among: readonly Told[], description: Description) =>
	among.filter(told => fits(told, description)).length / among.length;

/**
 * What all that is bad has and what is sound has not, in a sentence: the shortest description that parts most of them.
 * @param lead words of the explanation that leads: of equal descriptions the one that fits it
 */
export function isIsNot(timeline: Timeline, scene: Scene, zone: string, lead: string): string {
	const passesOf = (id: string, upTo: number) =>
		(timeline.faces.get(id) ?? []).filter(({ coat }) => coat <= upTo);
	const cut = new Set<number>();
	for (const { id, marks } of scene.faces)
		if (marks.length > 0) for (const { began } of timeline.faces.get(id) ?? []) cut.add(began);
	const cuts = [...cut].sort((a, b) => a - b).slice(0, 12);
	const tellAll = (id: string, coat: number) => toldBy(timeline, passesOf(id, coat), zone, cuts);
	const bad = scene.faces.flatMap(({ id, marks }) =>
		marks.length > 0 ? [tellAll(id, Math.max(...marks.map(({ coat }) => coat)))] : [],
	);
	const sound = scene.faces.flatMap(({ id, marks, cleared }) =>
		marks.length === 0 && cleared ? [tellAll(id, cleared.coat)] : [],
	);
	if (sound.length === 0) return nothingSound(timeline, bad, zone);
	const best = descriptions(bad)
		.map(description => ({
			description,
			parts: share(bad, description) - share(sound, description),
			fitsLead: description.some(({ by, what }) => lead.includes(said(by, what))) ? 1 : 0,
		}))
		.sort(
			(a, b) => b.parts - a.parts || a.description.length - b.description.length || b.fitsLead - a.fitsLead,
		)[0];
	if (!best || best.parts <= 0) return 'Nothing recorded parts the bad from the sound faces.';
	return sentenceOf(best.description, bad, sound);
}

function sentenceOf(description: Description, bad: readonly Told[], sound: readonly Told[]): string {
	const text = description.map(({ by, what }) => said(by, what)).join(', ');
	const isBad = bad.filter(told => fits(told, description)).length;
	const isSound = sound.filter(told => fits(told, description)).length;
	if (isBad < bad.length || isSound > 0)
		return `${isBad} of ${bad.length} bad: ${text}; sound with it: ${isSound}.`;
	const count = bad.length === 1 ? 'The one bad' : bad.length === 2 ? 'Both bad' : `All ${bad.length} bad`;
	const [first] = description;
	const others = new Set(sound.flatMap(told => [...(told.get(first?.by ?? '') ?? [])]));
	const not = first ? [...others].filter(what => what !== first.what).map(what => said(first.by, what)) : [];
	return `${count}: ${text}. Sound: ${(not.length < 3 && not.join(', ')) || 'the others'} (${sound.length}).`;
}

/** Which sound face would tell most: one of a batch, else of a part, that no bad one has. */
function nothingSound(timeline: Timeline, bad: readonly Told[], zone: string): string {
	for (const by of ['batch', 'part']) {
		const has = new Set(bad.flatMap(told => [...(told.get(by) ?? [])]));
		const other = timeline.passes
			.flatMap(pass => [...(toldBy(timeline, [pass], zone, []).get(by) ?? [])])
			.find(what => !has.has(what));
		if (other !== undefined) return `Nothing was found sound: look at one from ${said(by, other)}.`;
	}
	return 'Nothing was found sound: look at another face.';
}
