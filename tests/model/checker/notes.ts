import { type Bounds, between, type Clocks, told } from './clocks.ts';
import { type Finding, finding } from './finding.ts';
import type { Line, Raw } from './lines.ts';

/**
 * The vocabulary as this checker knows it: of each kind of record only the fields that a decision rests on.
 * A kind that is missing here is a finding, for a checker cannot vouch for what it does not know.
 */
const shapes = {
	'day.opened': { v: 'number', sheet: 'any', lists: 'any', settings: 'any', cans: 'any', before: 'any' },
	'day.closed': { why: 'any' },
	'day.planned': { faces: 'texts' },
	'clock.set': {},
	'air.read': { airC: 'number', humidity: 'number', surfaceC: 'number', spray: 'flag' },
	'check.began': { check: 'number', list: 'text', size: 'text?', items: 'texts' },
	'item.answered': { check: 'number', item: 'text', answer: 'text', passed: 'flag' },
	'batch.started': { batch: 'text', material: 'text', make_mL: 'number', ratio: 'any', by: 'text' },
	'batch.stepped': { batch: 'text', step: 'text' },
	'batch.poured': { batch: 'text', component: 'text', can: 'text', found: 'text', ...levels() },
	'batch.found': { batch: 'text', component: 'text', found: 'text', ...levels() },
	'batch.stood': { batch: 'text' },
	'cup.timed': { batch: 'text', cup: 'any', tempC: 'any' },
	'batch.ready': { batch: 'text' },
	'batch.discarded': { batch: 'text' },
	'batch.loaded': { batch: 'text', ofGun: 'text-or-none' },
	'cup.emptied': {},
	'gun.set': { horns: 'text?', pressure_kPa: 'number?', fanHeight_mm: 'number?', fluid: 'text?' },
	'reading.taken': {
		feature: 'text',
		value: 'reading',
		wanted: 'any',
		matched: 'flag',
		attempt: 'number',
		check: 'number?',
		face: 'text?',
		coat: 'number?',
		batch: 'any',
		faces: 'any',
		card: 'any',
	},
	'gun.checked': {
		check: 'number',
		size: 'text',
		face: 'text',
		coat: 'number',
		cup: 'texts',
		horns: 'text',
		tilt: 'number',
	},
	'gun.unknown': { why: 'text' },
	'face.started': {
		face: 'text',
		coat: 'number',
		cup: 'texts',
		check: 'number',
		air: 'number?',
		overrides: 'texts',
		window: 'text',
		from: 'text',
		facts: 'any',
	},
	'face.ended': { face: 'text', coat: 'number', extent: 'text', began: 'instant?', ended: 'instant?' },
	'face.late': { face: 'text' },
	'edge.left': { face: 'text' },
	'window.set': { face: 'text', coat: 'number', windows: 'any' },
	'window.moved': { face: 'text', coat: 'number', to: 'text' },
	'wait.began': {},
	'wait.ended': {},
	'break.began': { kind: 'text' },
	'break.ended': { kind: 'text', jump: 'any' },
	'override.given': {
		rule: 'text',
		reason: 'text',
		face: 'text?',
		coat: 'number?',
		step: 'any',
		place: 'any',
		window: 'any',
		batch: 'any',
		facts: 'any',
	},
	'stage.done': { face: 'text', stage: 'text', place: 'any' },
	'fault.seen': { gun: 'any', face: 'any' },
	'part.setAside': { part: 'text', faces: 'texts', faulty: 'texts-or-none' },
	'rework.done': { face: 'text', step: 'text' },
	'film.read': {},
	'photo.kept': {},
	'face.judged': {},
	'trigger.on': {},
	'trigger.off': {},
} as const satisfies Record<string, Record<string, keyof Sorts>>;

type Sorts = {
	text: string;
	'text?': string | null;
	number: number;
	'number?': number | null;
	texts: string[];
	flag: boolean;
	reading: string | number;
	'instant?': string | undefined;
	'number-or-none': number | undefined;
	'text-or-none': string | undefined;
	'texts-or-none': string[] | undefined;
	any: unknown;
};

function levels() {
	const none = 'number-or-none' as const;
	return { level_mL: none, mass_g: none, wanted_mL: none, wanted_g: none };
}

/**
 * A moment of the day: `t` the wall clock, `mono` the steady one, both ms; `mono` means nothing across runs. `lapse`:
 * what has passed since the day was opened, at the least and at the most, ms.
 */
export type Moment = Clocks & { lapse: Bounds };
type Place = Moment & {
	line: number;
	/** Its place among the notes, from 0. */
	n: number;
	seq: number;
	/** Records of one write share a number. */
	write: number;
};
export type Kind = keyof typeof shapes;
export type NoteOf<T extends Kind> = Place & { type: T } & {
	[Field in keyof (typeof shapes)[T]]: (typeof shapes)[T][Field] extends keyof Sorts
		? Sorts[(typeof shapes)[T][Field]]
		: never;
};
/** One record, checked for the fields that decisions rest on. */
export type Note = { [T in Kind]: NoteOf<T> }[Kind];

/** Every type of record in the vocabulary. */
export const knownKinds = Object.keys(shapes);

const isInstant = (value: unknown) =>
	typeof value === 'string' &&
	/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/.test(value) &&
	!Number.isNaN(+new Date(value));
const isText = (value: unknown) => typeof value === 'string';
const isNumber = (value: unknown) => typeof value === 'number' && Number.isFinite(value);

const tests: Record<keyof Sorts, (value: unknown) => boolean> = {
	text: isText,
	'text?': value => value === null || isText(value),
	number: isNumber,
	'number?': value => value === null || isNumber(value),
	texts: value => Array.isArray(value) && value.every(isText),
	'text-or-none': value => value === undefined || isText(value),
	'texts-or-none': value => value === undefined || (Array.isArray(value) && value.every(isText)),
	flag: value => typeof value === 'boolean',
	reading: value => isText(value) || isNumber(value),
	'instant?': value => value === undefined || isInstant(value),
	'number-or-none': value => value === undefined || isNumber(value),
	any: () => true,
};

const isKind = (type: unknown): type is Kind => typeof type === 'string' && Object.hasOwn(shapes, type);

function faultOf(raw: Raw): string | null {
	if (!isInstant(raw.at)) return `"at" is not an instant in UTC with milliseconds`;
	for (const key of ['seq', 'run', 'mono']) if (!isNumber(raw[key])) return `"${key}" is not a number`;
	if (!isKind(raw.type)) return `the record type ${JSON.stringify(raw.type)} is not known here`;
	const wrong = Object.entries(shapes[raw.type]).find(([key, sort]) => !tests[sort as keyof Sorts](raw[key]));
	return wrong
		? `"${wrong[0]}" of ${raw.type} is ${JSON.stringify(raw[wrong[0]])}, wanted: ${wrong[1]}`
		: null;
}

/**
 * Lines as notes, without a last write that was never finished (its last record says that more follow).
 * A note whose fields are of the wrong sort is a finding and is left out.
 */
export function readNotes(lines: Line[]): { notes: Note[]; findings: Finding[] } {
	const whole = lines.slice(0, lines.findLastIndex(({ raw }) => raw.more !== true) + 1);
	const notes: Note[] = [];
	const findings: Finding[] = [];
	let write = 0;
	for (const { line, raw } of whole) {
		const fault = faultOf(raw);
		if (fault) findings.push(finding('form', { line }, fault));
		else {
			const t = Date.parse(String(raw.at));
			const up = isNumber(raw.up) ? raw.up : null;
			const lapse = { least: 0, most: 0 };
			notes.push({ ...raw, line, n: notes.length, write, t, up, lapse } as unknown as Note);
		}
		if (raw.more !== true) write++;
	}
	count(notes);
	return { notes, findings };
}

/** Adds up what passed from note to note; what was said of a jump holds for the break that it was said after. */
function count(notes: Note[]): void {
	const bounds = notes.map((note, n) => {
		const before = notes[n - 1];
		return before ? between(before, note) : { least: 0, most: 0 };
	});
	let began: number | null = null;
	for (const [n, note] of notes.entries()) {
		if (is(note, 'break.began')) began ??= is(notes[n - 1], 'clock.set') ? n - 1 : n;
		if (!is(note, 'break.ended') || began === null) continue;
		for (let at = began; at <= n; at++) bounds[at] = told(bounds[at] ?? none, note.jump);
		began = null;
	}
	let lapse = none;
	for (const [n, note] of notes.entries()) {
		const { least, most } = bounds[n] ?? none;
		lapse = { least: lapse.least + least, most: lapse.most + most };
		note.lapse = lapse;
	}
}

const none: Bounds = { least: 0, most: 0 };

/** Whether a note is of one of these kinds. */
export function is<T extends Kind>(
	note: Note | undefined,
	...kinds: T[]
): note is Extract<Note, { type: T }> {
	return note !== undefined && (kinds as Kind[]).includes(note.type);
}

/** The notes of one kind, in order. */
export function allOf<T extends Kind>(notes: Note[], kind: T): Extract<Note, { type: T }>[] {
	return notes.filter(note => is(note, kind));
}
