import { balanceOf, type Laid } from '../film/balance.ts';
import { type FilmShares, filmOver } from '../film/map.ts';
import { comfortable_mm_per_s, knobFor } from '../film/speed.ts';
import { crossed, type FaceDraft, hornsFor } from './faces.ts';
import type { Job, Material, PlannedCoat, Stage } from './job.ts';
import { linesOn, wanted_um } from './on-work.ts';
import { coatsOn, type StageRead } from './stages.ts';

type Gun = Job['gun'];

/** A coat as the stages ask for it, before its paint and time are worked out. */
type Asked = Omit<PlannedCoat, 'volume_mL' | 'spray_s'>;

/** What has gathered on a face since its last coat, while walking through the stages. */
type Since = {
	prep: PlannedCoat['prep'];
	wait_h: number;
	until_min?: number;
	under: Material | null;
	/** A night is waited for behind the last of it. */
	isNight?: boolean;
};

type Planned<Coat> = {
	draft: FaceDraft;
	area_m2: number;
	coats: Coat[];
	finishing: Pick<Since, 'prep' | 'wait_h' | 'until_min'> | null;
};
export type FacePlan = Planned<PlannedCoat>;
/** As the sheet cleans the face before any of its coats so far; where it says nothing, it is wiped: common practice, no source. */
function cleanedBy(coats: readonly Asked[], prep: Since['prep']): NonNullable<Asked['cleaned']> {
	const steps = [...coats.flatMap(coat => coat.prep), ...prep].map(({ step }) => step);
	const named = (['wipe', 'tack'] as const).filter(step => steps.includes(step));
	return named.length > 0 ? named : ['wipe'];
}

type Ground = {
	/** Of the first spray stage; a stage may have another. */
	gun: Gun;
	gunAt: (read: StageRead) => { gun: Gun };
	materials: ReadonlyMap<string, Material>;
};

function layStage(
	plan: Planned<Asked>,
	index: number,
	read: StageRead,
	since: Since,
	materials: Ground['materials'],
): Since {
	const { stage } = read;
	const { entry: own, id } = plan.draft;
	const { crosswise } = own.values;
	const { stroke, attitude, tilt, size } = (read.held?.get(id) ?? own).values;
	const held = {
		...(attitude !== own.values.attitude && { attitude }),
		...(size && String(size) !== String(own.values.size) && { size_mm: size }),
	};
	if (stage?.kind !== 'coats' || !stroke || !attitude || tilt === undefined) return since;
	const material = materials.get(stage.material);
	if (!material) return since;
	let { prep, wait_h, until_min } = since;
	const kinds = coatsOn(read, id);
	for (const [at, kind] of kinds.entries()) {
		if (!material.coats[kind]) continue;
		const turned = crosswise?.some(({ value }) => value === plan.coats.length + 1);
		const its = turned ? crossed(stroke, attitude) : stroke;
		plan.coats.push({
			stage: index,
			material: stage.material,
			kind,
			stroke: its,
			horns: hornsFor(tilt, its),
			...held,
			ofStage: [at + 1, kinds.length],
			prep,
			cleaned: cleanedBy(plan.coats, prep),
			wait_h: plan.coats.length === 0 ? 0 : wait_h,
			...(until_min !== undefined && plan.coats.length > 0 && { until_min }),
		});
		prep = [];
		wait_h = 0;
		until_min = undefined;
	}
	return { prep, wait_h, under: material };
}

/** A wait counts from the step that it stands behind, or from the coat; one night behind another is a whole day more. */
function waited(
	since: Since,
	{ hours: own_h, until_min }: Extract<Stage, { kind: 'wait' }>,
	isNight: boolean,
): Since {
	const hours = isNight && since.isNight ? 24 : own_h;
	const last = since.prep.at(-1);
	const until = until_min !== undefined && { until_min };
	if (!last) return { ...since, wait_h: since.wait_h + hours, ...until, isNight };
	const then_h = (last.then_h ?? 0) + hours;
	return { ...since, prep: [...since.prep.slice(0, -1), { ...last, then_h, ...until }], isNight };
}

/** Every coat that one face is asked to get, stage by stage, with the work and the waits between. */
function askedOf(draft: FaceDraft, area_m2: number, stages: StageRead[], materials: Ground['materials']) {
	const plan: Planned<Asked> = { draft, area_m2, coats: [], finishing: null };
	let since: Since = { prep: [], wait_h: 0, under: null };
	for (const [index, read] of stages.entries()) {
		const { stage, leftOut } = read;
		if (!stage || leftOut.has(draft.id)) continue;
		if (stage.kind === 'coats') since = layStage(plan, index, read, since, materials);
		else if (stage.kind === 'wait') since = waited(since, stage, read.isNight === true);
		else {
			const grit = stage.grit ?? (stage.step === 'sand' ? (since.under?.grit ?? null) : null);
			const { step, dry } = stage;
			since = { ...since, prep: [...since.prep, { step, grit, ...(dry && { dry }) }], isNight: false };
		}
	}
	const { prep, wait_h, until_min } = since;
	if (prep.length > 0) plan.finishing = { prep, wait_h, ...(until_min !== undefined && { until_min }) };
	return plan;
}

/** One coat on the lines of its face. */
type OnLines = { coat: Asked; laid: Laid; wet_um: number };

/** Lines and films of faces, worked out once for all coats that go the same way. */
function linesOfFace({ draft, area_m2 }: Planned<Asked>): (gun: Gun, fan_mm: number, coat: Asked) => Laid {
	const { size, strip, corners } = draft.entry.values;
	const face = {
		area_m2,
		size_mm: size ?? null,
		...(strip && { strip_mm: strip }),
		cornerFirst: corners ?? false,
	};
	const known = new Map<Gun, Map<string, Laid>>();
	return (gun, fanHeight_mm, { stroke, size_mm = face.size_mm }) => {
		const ofGun = known.get(gun) ?? new Map<string, Laid>();
		const way = `${stroke} ${size_mm}`;
		const laid = ofGun.get(way) ?? linesOn(gun, { ...face, size_mm, fanHeight_mm }, stroke);
		known.set(gun, ofGun.set(way, laid));
		return laid;
	};
}

const films = (): ((laid: Laid, lead_mm: number) => FilmShares) => {
	const known = new Map<Laid, Map<number, FilmShares>>();
	return (laid, lead_mm) => {
		const leads = known.get(laid) ?? new Map<number, FilmShares>();
		const film = leads.get(lead_mm) ?? filmOver(laid, lead_mm);
		known.set(laid, leads.set(lead_mm, film));
		return film;
	};
};

/** Paint, time and film of a coat at a flow. */
function balanced(
	{ coat, laid, wet_um }: OnLines,
	flow_mL_per_min: number,
	filmOf: ReturnType<typeof films>,
) {
	const balance = balanceOf(laid, wet_um, flow_mL_per_min);
	const film = filmOf(laid, balance.lead_mm);
	return {
		...coat,
		volume_mL: balance.emitted_mL,
		spray_s: balance.elapsed_s,
		trigger_s: balance.trigger_s,
		strokes: Math.max(1, Math.round(laid.lines.count * laid.shape.pieces)),
		spacing_mm: laid.lines.spacing_mm,
		first_mm: laid.lines.first_mm,
		speed_mm_per_s: balance.speed_mm_per_s,
		flow_mL_per_min,
		capture: balance.capture,
		landed_mL: balance.landed_mL,
		min_um: film.least * wet_um,
		peak_um: film.most * wet_um,
	} satisfies PlannedCoat;
}

/**
 * Every coat of every face, with the paint and the time of its balance. One knob serves a kind of coat under one fan:
 * its flow is the gun's, or the one that keeps every speed in reach of a hand.
 */
export function planFaces(
	faces: readonly { draft: FaceDraft; area_m2: number }[],
	stages: StageRead[],
	{ gun: first, gunAt, materials }: Ground,
): FacePlan[] {
	const knobs = new Map<string, { gun: Gun; coats: OnLines[] }>();
	const nth = new Map<Gun, number>();
	const asked = faces.map(({ draft, area_m2 }) => {
		const plan = askedOf(draft, area_m2, stages, materials);
		const linesFor = linesOfFace(plan);
		const { fan } = draft.entry.values;
		const own_mm = fan ?? first.fanHeight_mm;
		const coats = plan.coats.flatMap(asked => {
			const read = stages[asked.stage];
			const gun = read ? gunAt(read).gun : first;
			const fan_mm = gun === first ? own_mm : Math.min(fan ?? gun.fanHeight_mm, gun.fanHeight_mm);
			nth.set(gun, nth.get(gun) ?? nth.size);
			const coat = { ...asked, ...(fan_mm !== own_mm && { fanHeight_mm: fan_mm }) };
			const material = materials.get(coat.material);
			const wet_um = material ? wanted_um(material, coat.kind) : null;
			if (wet_um === null) return [];
			const laid = linesFor(gun, fan_mm, coat);
			const key = `${coat.material}\u0000${coat.kind}\u0000${fan_mm}\u0000${nth.get(gun)}`;
			const one = { coat, laid, wet_um };
			const alike = knobs.get(key) ?? { gun, coats: [] };
			alike.coats.push(one);
			knobs.set(key, alike);
			return [{ key, one }];
		});
		return { ...plan, coats };
	});
	const flows = new Map(
		[...knobs].map(([key, { gun, coats }]) => {
			const range = gun.speeds_mm_per_s ?? comfortable_mm_per_s;
			return [key, knobFor(coats, gun.flow_mL_per_min, range).flow_mL_per_min];
		}),
	);
	const filmOf = films();
	return asked.map(plan => ({
		...plan,
		coats: plan.coats.map(({ key, one }) => balanced(one, flows.get(key) ?? first.flow_mL_per_min, filmOf)),
	}));
}
