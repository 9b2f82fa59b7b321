import { handSpread, oddsSaid, sagOdds } from '../film/odds.ts';
import { cupOddity } from '../trade/cup.ts';
import { mixAmounts } from '../trade/mix.ts';
import type { UnitSystem } from '../trade/quantity.ts';
import { beyondRows } from '../trade/recoat.ts';
import { sagLimit_um } from '../trade/sag.ts';
import { format, formatRange } from '../trade/shown.ts';
import { dilution_m3, exposure_m3 } from '../trade/ventilation.ts';
import { type CoatSpeeds, coatSpeeds, rangeOf, turnsKnob } from './coat-speeds.ts';
import { gunFor, gunsOn, type Job, leavesOut, type Material, type Prep } from './job.ts';
import { coolsBy_K, partsWith, unmeasuredFlow } from './on-work.ts';
import { livesOrNot_h, standsOrNot_min } from './process-clocks.ts';
import { turnedByFlash } from './turned-on.ts';

/** From this share of the sag limit on the highest film of a face is told. This project's own choice. */
const nearSag = 0.8;
/** A coat's speed that is off the painter's habit by more than this is told. This project's own choice. */
const offHabit = 0.2;

const named = ({ material, kind }: CoatSpeeds): string => `${material}, ${kind}`;

const speedsSaid = ({ slowest_mm_per_s, fastest_mm_per_s }: CoatSpeeds, units: UnitSystem): string =>
	slowest_mm_per_s === fastest_mm_per_s
		? format(slowest_mm_per_s, 'speed', units)
		: formatRange(slowest_mm_per_s, fastest_mm_per_s, 'speed', units);

/** The knob that a kind of coat wants turned, and the fan that would have to be another. */
function knobNotes(coats: readonly CoatSpeeds[], units: UnitSystem): string[] {
	return coats.flatMap(one => {
		const [slowest, fastest] = rangeOf(one);
		const off = 1e-6;
		const outside = one.slowest_mm_per_s < slowest * (1 - off) || one.fastest_mm_per_s > fastest * (1 + off);
		const fan = format(one.fanHeight_mm, 'length', units);
		if (outside)
			return [
				`${named(one)}: wants another fan than ${fan}; at no one flow do all its faces keep to ${formatRange(slowest, fastest, 'speed', units)}`,
			];
		if (!turnsKnob(one, one.flow_mL_per_min)) return [];
		return [
			`${named(one)}: wants the fluid knob at ${format(one.flow_mL_per_min, 'flow', units)} and ${speedsSaid(one, units)}, with a fan of ${fan}`,
		];
	});
}

function habitNotes(coats: readonly CoatSpeeds[], units: UnitSystem): string[] {
	return coats.flatMap(one => {
		const habit = one.gun.speed_mm_per_s;
		if (habit === undefined || turnsKnob(one, one.flow_mL_per_min)) return [];
		const isOff = (speed: number) => Math.abs(speed / habit - 1) > offHabit;
		if (!isOff(one.slowest_mm_per_s) && !isOff(one.fastest_mm_per_s)) return [];
		return [
			`${named(one)}: wants ${speedsSaid(one, units)}; the gun's speed is ${format(habit, 'speed', units)}`,
		];
	});
}

/** What the film of a face is unsure by, each one deviation. */
const spreadOf = ({ transfer, transfer_tolerance, flow_tolerance = unmeasuredFlow }: Job['gun']) => ({
	...handSpread,
	transfer: transfer_tolerance / transfer,
	flow: flow_tolerance,
});

/** Faces whose highest film comes near the sag limit, once for each kind of coat and fan, by the one that gets most. */
function sagNotes({ materials }: Job, coats: readonly CoatSpeeds[], units: UnitSystem): string[] {
	return coats.flatMap(one => {
		const sag_um = materials[one.material]?.sag_um ?? Number.POSITIVE_INFINITY;
		const near = one.coats
			.map(({ face, coat }) => ({
				face: face.id,
				peak_um: coat.peak_um ?? 0,
				share: (coat.peak_um ?? 0) / sagLimit_um(sag_um, coat.attitude ?? face.attitude),
			}))
			.filter(({ share }) => share >= nearSag)
			.toSorted((a, b) => b.share - a.share);
		const [worst] = near;
		if (!worst) return [];
		const more = new Set(near.map(({ face }) => face)).size - 1;
		const peak = format(worst.peak_um, 'film', units);
		const limit = format(sag_um, 'film', units);
		const odds = oddsSaid(sagOdds(worst.share, 1, spreadOf(one.gun)));
		const says = `${worst.share >= 1 ? 'it runs' : `${Math.round(worst.share * 100)} % of it`}, over it ${odds}`;
		return [
			`${worst.face}${more > 0 ? ` and ${more} more` : ''}: a ${one.kind} coat of ${one.material} lies up to ${peak} wet and sags above ${limit}: ${says}`,
		];
	});
}

/** Faces that take more than the cup holds, since much of it passes their edges. */
function cupNotes(job: Job, units: UnitSystem): string[] {
	return job.faces.flatMap(({ id, coats }) => {
		const over = coats
			.map(({ stage, volume_mL }) => ({ volume_mL, cup_mL: gunFor(job, { stage }).cup_mL }))
			.filter(({ volume_mL, cup_mL }) => volume_mL > cup_mL);
		const [worst] = over.toSorted((a, b) => b.volume_mL - a.volume_mL);
		if (!worst) return [];
		return [
			`${id}: a coat takes ${format(worst.volume_mL, 'volume', units)}, most of it past the edges; the cup holds ${format(worst.cup_mL, 'volume', units)}: a narrower fan, a larger cup, or split the face`,
		];
	});
}

/** What the balance had to take for granted. */
function assumedNotes(job: Job): string[] {
	const { gun, guns = { gun }, faces, materials, stages } = job;
	const called = (name: string) => (name === 'gun' ? name : `gun ${name}`);
	const sprayed = stages.flatMap(stage => (stage.kind === 'coats' ? [stage.material] : []));
	const byFlash = turnedByFlash(job);
	const ofMaterials = Object.values(materials).flatMap(({ id, assumed = [] }) => {
		const all = byFlash.includes(id) ? [...assumed, 'dry to handle'] : assumed;
		return all.length > 0 && sprayed.includes(id)
			? [`material ${id}: ${all.join(', ')} usual, not measured`]
			: [];
	});
	const sizeless = faces.filter(({ size_mm, strip_mm }) => !size_mm && !strip_mm).map(({ id }) => id);
	const more = sizeless.length > 1 ? ` and ${sizeless.length - 1} more` : '';
	return [
		...Object.entries(guns).flatMap(([name, { assumed = [], changed = [], unmeasured }]) => [
			...(changed.length > 0 ? [`${called(name)}: ${changed.join(', ')} differs from the shelf`] : []),
			...(assumed.length > 0 ? [`${called(name)}: ${assumed.join(', ')} usual, not measured`] : []),
			...(unmeasured ? [`${called(name)}: this fan was never measured with its material`] : []),
		]),
		...Object.values(materials).flatMap(({ id, changed = [] }) =>
			changed.length > 0 ? [`material ${id}: ${changed.join(', ')} differs from the shelf`] : [],
		),
		...ofMaterials,
		...(sizeless.length > 0
			? [
					`${sizeless[0]}${more}: size not known, taken as a square; give "size", or "strip" for narrow pieces`,
				]
			: []),
	];
}

function airNotes({ shop }: Job, material: Material, units: UnitSystem): string[] {
	const [low, high] = material.limits.air_C;
	if (shop.air_C >= low && shop.air_C <= high && shop.humidity <= material.limits.humidity_max) return [];
	return [
		`shop: ${format(shop.air_C, 'temperature', units)} at ${format(shop.humidity, 'share', units)} is outside what ${material.id} allows: ${formatRange(low, high, 'temperature', units)}, up to ${format(material.limits.humidity_max, 'share', units)}`,
	];
}

/** Air beyond a recoat table: its times are then planned by the nearest row, the careful way. */
function recoatNotes({ shop }: Job, { id, recoat }: Material, units: UnitSystem): string[] {
	const temp = (C: number) => format(C, 'temperature', units);
	return recoat.flatMap(({ under, rows }) => {
		const side = beyondRows(rows, shop.air_C);
		const from_C = Math.min(...rows.map(row => row.from_C));
		const to_C = Math.max(...rows.map(row => row.to_C));
		return side
			? [
					`shop: ${temp(shop.air_C)} is ${side} the recoat table of ${id} over ${under}, ${formatRange(from_C, to_C, 'temperature', units)}: planned by its nearest row, nothing sooner`,
				]
			: [];
	});
}

function flowCupNotes({ id, cup }: Material): string[] {
	const odd = cup && cupOddity(cup);
	return odd ? [`${id}, cup: ${odd}`] : [];
}

/** Times by which a coat would harden later the warmer it is: as its sheet says, and hardly as it means. */
function hardeningNotes({ id, sandAfter, dryTo }: Material): string[] {
	const times = { 'sand after': sandAfter, 'dry to, handle': dryTo?.handle, 'dry to, tape': dryTo?.tape };
	return Object.entries(times).flatMap(([key, points = []]) => {
		const rising = points.toSorted((one, other) => one.at_C - other.at_C);
		return rising.some(({ hours }, nth) => hours > (rising[nth - 1]?.hours ?? hours))
			? [`${id}, ${key}: grows longer with warmth; read its data sheet again`]
			: [];
	});
}

/** The air that its solvent asks for while it is sprayed, for fire and for health side by side; arithmetic, never a go-ahead. */
function solventNotes(job: Job, { id, solvent }: Material, units: UnitSystem): string[] {
	if (!solvent) return [];
	const { share_of_mix, vapour_m3_per_L, lel, limit } = solvent;
	const flow_mL_per_min = Math.max(...gunsOn(job, id).map(gun => gun.flow_mL_per_min));
	const sprayed = { vapour_m3_per_L, solvent_L: (flow_mL_per_min * share_of_mix) / 1000 };
	const air = (volume_m3: number) => `${format(volume_m3, 'airVolume', units)} of air a minute`;
	try {
		const fire = air(dilution_m3({ ...sprayed, lel }));
		const health =
			limit === undefined
				? 'far more for its exposure limit, which is not given (limit)'
				: `${air(exposure_m3({ ...sprayed, limit, mixing: 1 }))} for its exposure limit`;
		return [
			`${id}, solvent: while it sprays, ${fire} for a quarter of its explosive limit, ${health}: arithmetic, no go-ahead`,
		];
	} catch (error) {
		if (error instanceof RangeError) return [`${id}, solvent: ${error.message}`];
		throw error;
	}
}

/** Reducer in parts by weight, as a painter measures it. */
function reducerNotes(material: Material): string[] {
	const { id, ratio, reducer_parts, density_kg_per_L } = material;
	if (ratio.by !== 'weight' || reducer_parts === 0) return [];
	const parts = { ratio: partsWith(material, reducer_parts), by: ratio.by, density_kg_per_L };
	const { base_mL, hardener_mL, reducer_mL } = mixAmounts({ ...parts, make_mL: 1000 });
	const share = format(reducer_mL / (base_mL + hardener_mL), 'share', 'metric');
	return [`${id}: its reducer is ${share} of base and hardener by volume; the sheet has it by weight`];
}

/** The coat that cools its face most, where the sheet says what the face is made of. */
function coolingNotes({ faces, materials }: Job, units: UnitSystem): string[] {
	const cooled = faces.flatMap(({ id, substrate, coats }) =>
		coats.flatMap(({ material: name, kind }) => {
			const material = materials[name];
			const by_K = material && substrate ? coolsBy_K(material, kind, substrate) : 0;
			if (!material || !substrate || by_K === 0) return [];
			const margin_K = material.limits.margin_C;
			return [{ id, name, kind, substrate, margin_K, by_K }];
		}),
	);
	const [most] = cooled.toSorted((a, b) => b.by_K - a.by_K);
	if (!most) return [];
	const { id, name, kind, substrate, margin_K, by_K } = most;
	const [by, margin, left] = [by_K, margin_K, Math.max(0, margin_K - by_K)].map(kelvin =>
		format(kelvin, 'temperatureDifference', units),
	);
	return [
		`${id}: with a fast reducer a ${kind} coat of ${name} may cool ${substrate} by ${by}: of ${margin} over the dew point ${left} would be left`,
	];
}

/** Paint that lives no longer than it stands, as warm as the shop is. */
function standingNotes({ shop }: Job, material: Material, units: UnitSystem): string[] {
	const { id } = material;
	const standing_min = standsOrNot_min(material, shop.air_C);
	const there = `shop: at ${format(shop.air_C, 'temperature', units)} ${id}`;
	if (!Number.isFinite(standing_min))
		return [`${there} has no standing time: its data sheet gives none so far off`];
	const life_h = livesOrNot_h(material, shop.air_C);
	if (standing_min === 0 || life_h * 60 > standing_min) return [];
	const [stands, lives] = [standing_min * 60, life_h * 3600].map(seconds => format(seconds, 'time', units));
	return [
		`${there} lives ${lives} and stands ${stands}: nothing of it can be sprayed; mix it cooler, or with the hardener that its data sheet gives for the heat`,
	];
}

/** A material that a filter mask may serve for, did its sheet name the cartridge; with isocyanate none does. */
function breathingNotes({ id, isocyanate, breathing }: Material): string[] {
	if (isocyanate || breathing === undefined || breathing.spraying !== null) return [];
	return [
		`${id}: names no breathing gear for spraying, so that only supplied air passes; a filter mask takes a line as in "breathing: { spraying: filter mask with A2-P3 }", with the cartridge that its safety data sheet names`,
	];
}

/** Parts of which two faces lie flat, and no word says whether they are turned over between them. */
function turningNotes({ faces, parts }: Job): string[] {
	const names = parts
		.map(({ name }) => name)
		.filter(name => faces.some(face => face.part === name && face.turned === 'taken'));
	const [first] = names;
	if (first === undefined) return [];
	const its = faces
		.filter(({ part, attitude }) => part === first && attitude === 'flat')
		.map(({ name }) => name);
	const more = names.length > 1 ? ` (and ${names.length - 1} more)` : '';
	return [
		`part ${first}${more}: ${its.join(' and ')} lie flat, so one side gets its coats, is turned over when dry to handle, and the other follows; write "turned over: yes" or "turned over: no" under each of them`,
	];
}

/** What paint that is finished does not take: solvent, dust and scratches. */
const harms: readonly Prep[] = ['sand', 'scuff', 'fill', 'wipe', 'tack'];

/** Preparation for a later coat that reaches faces which have all of theirs. */
function finishedNotes({ stages, faces }: Job): string[] {
	const last = stages.findLastIndex(({ kind }) => kind === 'coats');
	const notes = stages.flatMap((stage, nth) => {
		if (stage.kind !== 'prep' || !harms.includes(stage.step) || nth > last) return [];
		const reached = faces.filter(
			({ id, coats }) => coats.length > 0 && !leavesOut(stage, id) && coats.every(coat => coat.stage < nth),
		);
		const [first, ...more] = reached;
		const others = more.length > 0 ? ` and ${more.length} more` : '';
		return first
			? [
					`${stage.name}: reaches ${first.id}${others} after the last coat there; write "only: […]" or "leave out: […]" where finished paint is to be left alone`,
				]
			: [];
	});
	return [...new Set(notes)];
}

/** Coats that parts are turned over on, and whose sheet has no time for that: the plan goes by their flash, the day by a tab. */
const handleNotes = (job: Job): string[] =>
	turnedByFlash(job).map(
		id =>
			`material ${id}: parts are turned over on it, planned by its flash, in the day by a tape tab; give its data sheet's time as in "dry to: { handle: 4 h at 20 °C }"`,
	);

/**
 * What a sheet says that is no mistake and yet worth a second look: a knob or a fan that a coat wants turned, a film near
 * its limit, what was taken for granted, shop air outside a material's limits, no breathing gear named, a part with two sides that lie flat, work on faces that are finished, a material that no stage sprays.
 */
export function notesOf(job: Job, units: UnitSystem): string[] {
	const sprayed = new Set(job.stages.flatMap(stage => (stage.kind === 'coats' ? [stage.material] : [])));
	const materials = Object.values(job.materials);
	const coats = coatSpeeds(job);
	return [
		...materials.filter(({ id }) => !sprayed.has(id)).map(({ id }) => `material ${id}: no stage sprays it`),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(material => airNotes(job, material, units)),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(material => standingNotes(job, material, units)),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(material => recoatNotes(job, material, units)),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(hardeningNotes),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(breathingNotes),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(reducerNotes),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(material => solventNotes(job, material, units)),
		...turningNotes(job),
		...finishedNotes(job),
		...handleNotes(job),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(flowCupNotes),
		...knobNotes(coats, units),
		...habitNotes(coats, units),
		...sagNotes(job, coats, units),
		...cupNotes(job, units),
		...coolingNotes(job, units),
		...assumedNotes(job),
	];
}
