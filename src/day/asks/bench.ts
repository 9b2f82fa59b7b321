import { airVerdict, dewPoint_C } from '../../trade/air.ts';
import { fromUnit, inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryUnit, format } from '../../trade/shown.ts';
import { duration, faceName, inert, prepWord, sentence } from '../../words/say.ts';
import { cupLife_s, factsForFace, isWet, lateAfter_s, wantedFor, windowEnds } from '../allowed.ts';
import {
	contextOf,
	faceBook,
	faceOf,
	faceState,
	laidOn,
	type Moment,
	materialOf,
	nextCoat,
	settingsOf,
	unitsOf,
} from '../moment.ts';
import { pending, type Step } from '../next.ts';
import { type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { reading } from './reading.ts';
import { inTrouble } from './trouble.ts';

/** Questions between things: the air, the tape tab, preparation, rework, and *ready*. */

const airAsked: {
	of: 'airC' | 'humidity' | 'surfaceC';
	kind: Quantity;
	say: string;
	range: [number, number];
}[] = [
	{ of: 'airC', kind: 'temperature', say: 'Air near the work: how warm?', range: [-10, 60] },
	{ of: 'humidity', kind: 'share', say: 'Air near the work: what humidity?', range: [0, 1] },
	{ of: 'surfaceC', kind: 'temperature', say: 'Surface of the parts: how warm?', range: [-10, 70] },
];

/** Limits of the materials still to be sprayed today, the narrowest of each. */
function limitsOf(moment: Moment) {
	const ids = new Set(pending(moment).map(({ face }) => nextCoat(moment, face).material));
	const materials = [...ids].map(id => materialOf(moment, id).limits);
	return {
		air_C: [
			Math.max(...materials.map(({ air_C }) => air_C[0])),
			Math.min(...materials.map(({ air_C }) => air_C[1])),
		] as [number, number],
		humidity_max: Math.min(...materials.map(({ humidity_max }) => humidity_max)),
		margin_C: Math.max(settingsOf(moment).margin_C, ...materials.map(({ margin_C }) => margin_C)),
	};
}

function airRead(moment: Moment, [airC = 0, humidity = 0, surfaceC = 0]: readonly number[]): DayEvent {
	const limits = limitsOf(moment);
	try {
		const { dewPointC, spray, reasons } = airVerdict({ airC, humidity, surfaceC }, limits, unitsOf(moment));
		return { type: 'air.read', airC, humidity, surfaceC, dewPointC, spray, reasons };
	} catch (error) {
		if (!(error instanceof RangeError)) throw error;
		return {
			type: 'air.read',
			airC,
			humidity,
			surfaceC,
			dewPointC: dewPoint_C(airC, Math.max(0.01, humidity)),
			spray: false,
			reasons: [error.message],
		};
	}
}

export function airPrompt(moment: Moment, numbers: readonly number[]): Prompt {
	const { of, kind, say, range } = airAsked[numbers.length] ??
		airAsked[0] ?? {
			of: 'airC' as const,
			kind: 'temperature' as const,
			say: '',
			range: [0, 0] as [number, number],
		};
	const { unit, symbol, step } = entryUnit(kind, unitsOf(moment));
	return {
		state: `air.${of}`,
		ask: 'number',
		say,
		number: {
			of,
			unit,
			min: Math.ceil(inUnit(range[0], kind, symbol)),
			max: Math.floor(inUnit(range[1], kind, symbol)),
			step,
			reply: value => {
				const all = [...numbers, fromUnit(value, kind, symbol)];
				return all.length < airAsked.length ? { ui: { numbers: all } } : { events: [airRead(moment, all)] };
			},
		},
	};
}

/** The air says no: read it again, or go on under a reason that marks every face. */
export function stuckPrompt(moment: Moment, menu: readonly string[]): Prompt {
	const { air } = moment.state.book;
	const faces = pending(moment).map(({ face }) => face);
	const over = (reason: string): DayEvent[] =>
		faces.map(face => ({
			type: 'override.given',
			rule: 'air',
			reason,
			face,
			coat: laidOn(moment, face) + 1,
		}));
	if (menu[0] === 'reason') return reasonPrompt('air', 'Air outside the limits: why go on?', over);
	return {
		state: 'air.no',
		ask: 'choose',
		say: 'Air: outside the limits. Do not spray now.',
		lines: (air?.reasons ?? []).map(inert),
		options: [
			opens('read-again', 'READ AGAIN', 'read-again'),
			opens('go-on', 'GO ON WITH A REASON', 'reason'),
		],
	};
}

/** Every override is asked for a reason; it is logged and marks what is sprayed under it. */
export function reasonPrompt(rule: string, say: string, over: (reason: string) => DayEvent[]): Prompt {
	return {
		state: `override.${rule}`,
		ask: 'choose',
		say,
		lines: ['The reason is logged and marks the faces.'],
		options: [
			option('data-sheet', 'DATA SHEET ALLOWS IT', ...over('the data sheet allows it')),
			option('test-piece', 'TESTED ON SCRAP', ...over('tested on scrap')),
			option('owner', 'OWNER ACCEPTS IT', ...over('the owner accepts it')),
			{ code: 'not', text: 'DO NOT', reply: () => ({ ui: { menu: [] } }) },
		],
		text: reason => ({ events: over(reason) }),
	};
}

export function touchPrompt(moment: Moment, faces: readonly string[], coat: number): Prompt {
	const first = faces[0] ?? '';
	const { touch } = materialOf(moment, nextCoat(moment, first).material).flash;
	const on = { faces: [...faces], coat, face: first };
	return {
		state: 'touch',
		ask: 'touch',
		say: 'Tape tab of the last coat: touch it, gloved. How?',
		lines: [`Before coat ${coat}.`],
		face: first,
		coat,
		options: (['strings', 'tacky', 'dry'] as const).map(value =>
			option(value, value.toUpperCase(), reading(moment, 'touch', value, [...touch], on)),
		),
	};
}

/** Preparation of a part before its next coat. */
export function prepPrompt(
	moment: Moment,
	step: Extract<Step, { kind: 'prep' }>,
	menu: readonly string[],
): Prompt {
	const { part, faces, step: prep, grit } = step;
	const rule = nextCoat(moment, faces[0] ?? '').prep.some(one => one.step === prep) ? 'prep' : 'window';
	const over = (reason: string): DayEvent[] =>
		faces.map(face => ({ type: 'override.given', rule, reason, face, coat: laidOn(moment, face) + 1 }));
	if (menu[0] === 'reason')
		return reasonPrompt(rule, sentence(`${inert(part)}: why is it not ${prepWord[prep] ?? prep}?`), over);
	const done = faces.map((face): DayEvent => ({ type: 'stage.done', face, stage: prep, grit }));
	return {
		state: `prep.${prep}`,
		ask: 'item',
		say: sentence(
			`${inert(part)}: ${prep}${grit ? ` with ${grit} grit` : ''}, ${faces.length === 1 ? 'one face' : `${faces.length} faces`}.`,
		),
		lines:
			prep === 'sand' || prep === 'scuff'
				? ['Dust protection on. Film not fully cured is still a hazard.']
				: [],
		face: faces[0] ?? null,
		options: [
			option('done', (prepWord[prep] ?? prep).toUpperCase(), ...done),
			opens('skip', 'LEAVE IT OUT', 'reason'),
		],
	};
}

/** The next step of a part's own line. */
export function reworkPrompt(
	moment: Moment,
	faces: readonly string[],
	step: 'set-up' | 'sand' | 'clean',
): Prompt {
	const first = faces[0] ?? '';
	const part = inert(faceOf(moment, first).part);
	const says = {
		'set-up': `${part}: set up hard? Press a thumbnail where it hides.`,
		sand: `${part}: sand the fault flat, wet.`,
		clean: `${part}: wash, dry, wipe and tack it.`,
	};
	const done = faces.flatMap((face): DayEvent[] => {
		const laid = faceState(moment, face).context.laid;
		const back: DayEvent = { type: 'rework.done', face, step };
		const beyond = step === 'clean' && laid >= faceOf(moment, face).coats.length;
		return beyond
			? [
					back,
					{
						type: 'override.given',
						rule: 'coats',
						reason: 'respray after sanding flat',
						face,
						coat: laid + 1,
					},
				]
			: [back];
	});
	return {
		state: `rework.${step}`,
		ask: 'item',
		say: sentence(says[step]),
		lines: step === 'sand' ? ['Dust protection on. Film not fully cured is still a hazard.'] : [],
		face: first,
		options: [
			option('done', step === 'set-up' ? 'HARD' : 'DONE', ...done),
			opens('not-yet', 'NOT YET', 'not-yet'),
		],
	};
}

/** Faces from the next on, that follow with nothing on the gun to touch and can all be finished from this cup. */
export function stretchFrom(moment: Moment, first: string): string[] {
	const { by, stretch_s } = settingsOf(moment);
	if (by === 'face' || faceState(moment, first).matches('part')) return [first];
	const { known } = contextOf(moment);
	const lead = nextCoat(moment, first);
	let seconds = 0;
	let volume = 0;
	const stretch: string[] = [];
	const faces = pending(moment).map(({ face }) => face);
	for (const face of faces.slice(faces.indexOf(first))) {
		const coat = nextCoat(moment, face);
		const { volume_mL, spray_s } = wantedFor(moment, face);
		seconds += spray_s;
		volume += volume_mL;
		const facts = factsForFace(moment, face);
		const { overrides } = faceState(moment, face).context;
		const same =
			coat.stage === lead.stage &&
			coat.ofStage[0] === lead.ofStage[0] &&
			coat.horns === known?.horns &&
			faceOf(moment, face).fanHeight_mm === known.fanHeight_mm &&
			!faceState(moment, face).matches('part');
		const allowed =
			facts.window === 'spray' &&
			coat.prep.every(({ step }) => faceState(moment, face).context.done.includes(step));
		const touched = faceState(moment, face).context.touched || coat.ofStage[0] === 1;
		const reaches = volume <= moment.state.book.cup_mL + 1e-9 && seconds < cupLife_s(moment);
		const first = stretch.length === 0;
		if (!first && !(same && allowed && touched && reaches && seconds <= stretch_s && overrides.length === 0))
			break;
		stretch.push(face);
	}
	return stretch;
}

/** Rules overridden for a face: its own, the day's lists, and the gun check's items. */
function overridesFor(moment: Moment, face: string): string[] {
	const { overrides, checkSeq } = moment.state.book;
	const general = overrides
		.filter(one => one.face === null && (one.seq > checkSeq || one.list !== 'gun-check'))
		.map(({ rule }) => rule);
	return [...new Set([...faceState(moment, face).context.overrides, ...general])];
}

const started = (moment: Moment, face: string): DayEvent => {
	const { book } = moment.state;
	const facts = factsForFace(moment, face);
	return {
		type: 'face.started',
		face,
		coat: laidOn(moment, face) + 1,
		cup: [...contextOf(moment).cup],
		check: book.checked?.check ?? 0,
		air: book.air?.seq ?? null,
		overrides: overridesFor(moment, face),
		window: facts.window ?? 'wait',
		from: faceState(moment, face).matches('part') ? 'part' : 'start',
		spray_s: wantedFor(moment, face).spray_s,
		facts,
	};
};

/** How the wrist holds the gun, where it is not upright. */
const tiltWords = (tilt: number) =>
	tilt === 0 ? null : `Lay the gun over to the ${tilt > 0 ? 'left' : 'right'}.`;

/** Ready: two different corners start the face, or the stretch. */
export function readyPrompt(moment: Moment, face: string, armed: boolean): Prompt {
	const coat = nextCoat(moment, face);
	const faces = stretchFrom(moment, face);
	const { book } = moment.state;
	const units = unitsOf(moment);
	const wanted = faces.reduce((sum, one) => sum + wantedFor(moment, one).volume_mL, 0);
	const { part } = faceBook(moment, face);
	const closes = windowEnds(moment, face);
	const from =
		part && isWet(moment, face)
			? `Go on one stroke back${part.lastStroke ? `, from stroke ${Math.max(1, part.lastStroke - 1)}` : ''}. Not from the start.`
			: null;
	const lines = [
		from ?? tiltWords(faceOf(moment, face).tilt),
		`Stroke ${coat.stroke.replaceAll('-', ' ')}, ${coat.kind} coat, ${duration(coat.spray_s)}.`,
		`Cup ${format(book.cup_mL, 'volume', units)}, wants ${format(wanted, 'volume', units)}.`,
		closes === null ? null : `Window closes in ${duration((closes - moment.now.wall) / 1000)}.`,
	].filter(line => line !== null);
	const start = () => ({ events: faces.map(one => started(moment, one)) });
	const go: Option = armed
		? { code: 'start', text: 'AND START', at: 'bottomRight', reply: start }
		: { code: 'start', text: 'START', reply: () => ({ ui: { armed: true } }) };
	const named = faces.length === 1 ? faceName(face) : `${faceName(face)} and ${faces.length - 1} more`;
	return {
		state: armed ? 'ready.armed' : 'ready',
		ask: 'go',
		say: sentence(`${named}: coat ${laidOn(moment, face) + 1} of ${faceOf(moment, face).coats.length}.`),
		lines: faces.length === 1 ? lines : [...faces.map(one => faceName(one)), ...lines],
		face,
		coat: laidOn(moment, face) + 1,
		options: armed ? [go] : [go, inTrouble],
	};
}

/** The screen while a face, or a stretch, is sprayed: nothing else is asked or said. */
export function sprayingPrompt(moment: Moment): Prompt {
	const { stretch, now } = moment.state.book;
	const faces = stretch.filter(face => faceState(moment, face).matches('spraying'));
	const first = faces[0] ?? '';
	const total = faces.reduce((sum, face) => sum + (faceBook(moment, face).pass?.spray_s ?? 1), 0);
	const began = faceBook(moment, first).pass?.began ?? now;
	const elapsed = moment.now.wall - began.wall;
	let at = began.wall;
	const ends = faces.map((face): DayEvent => {
		const share = elapsed * ((faceBook(moment, face).pass?.spray_s ?? 1) / total);
		const from = at;
		at += share;
		return {
			type: 'face.ended',
			face,
			coat: laidOn(moment, face) + 1,
			extent: 'all',
			lastStroke: null,
			estimated: faces.length > 1,
			...(faces.length > 1 && { began: new Date(from).toISOString(), ended: new Date(at).toISOString() }),
		};
	});
	const more = faces.length > 1 ? ` and ${faces.length - 1} more` : '';
	return {
		state: 'spraying',
		ask: 'spraying',
		say: sentence(`${faceName(first)}${more}: coat ${laidOn(moment, first) + 1}.`),
		lines: faces.length > 1 ? faces.map(faceName) : [],
		face: first,
		coat: laidOn(moment, first) + 1,
		options: [option('finished', 'FINISHED', ...ends), { ...inTrouble, at: 'bottomRight' }],
	};
}

/** When a face may still be touched again: the seconds after which its pass is late. */
export const lateAt = (moment: Moment): number => {
	const faces = moment.state.book.stretch.filter(face => faceState(moment, face).matches('spraying'));
	const total = faces.reduce((sum, face) => sum + (faceBook(moment, face).pass?.spray_s ?? 0), 0);
	const began = faceBook(moment, faces[0] ?? '').pass?.began;
	return (began?.wall ?? moment.now.wall) + lateAfter_s(total) * 1000;
};
