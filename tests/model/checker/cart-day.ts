import { cartCans, cartLists, cartSheet, door, lid } from './cart-sheet.ts';
import { add, type Draft, join, newDraft, pass } from './draft.ts';
import type { Raw } from './lines.ts';

/** What may differ between sound days. */
export type Variation = {
	/** Seconds between one key and the next. */
	pace_s: number;
	/** Readings that differ before the one that fits, by feature. */
	misread: Record<string, number>;
	cards: boolean;
	/** The first coat in one stretch, the door with the wrist laid over. */
	stretch: boolean;
	/** Minutes waited beyond what a flash asks. */
	late_min: number;
	/** Seconds that a visitor stays while the door gets its first coat. */
	visit_s: number;
	/** Killed and started again during the visit. */
	killed: boolean;
	/** What was done to the door when the visitor came. */
	broken: 'all' | 'part' | 'none';
	surfaceC: number;
	/** A second batch is mixed at once and tops the cup up. */
	joined: boolean;
};

export const plain: Variation = {
	pace_s: 3,
	misread: {},
	cards: false,
	stretch: false,
	late_min: 1,
	visit_s: 90,
	killed: false,
	broken: 'all',
	surfaceC: 21,
	joined: false,
};

type Story = { draft: Draft; vary: Variation; check: number; air: number; cup: string[] };

const tiltOf = (story: Story, face: string) => (face === door && story.vary.stretch ? 90 : 0);
const hornsOf = (story: Story, face: string) => (face === door && !story.vary.stretch ? 'upright' : 'level');
const patterns: Record<string, string> = { [lid]: 'tall', [door]: 'wide' };

function key(story: Story, type: string, fields: Raw = {}): Raw {
	pass(story.draft, story.vary.pace_s);
	return add(story.draft, type, fields);
}

function read(
	story: Story,
	feature: string,
	wanted: string | number,
	wrong: string | number,
	fields: Raw,
): void {
	const shared = { feature, wanted, check: story.check, batch: null, ...fields };
	const times = story.vary.misread[feature] ?? 0;
	for (let attempt = 1; attempt <= times; attempt++)
		key(story, 'reading.taken', { ...shared, value: wrong, matched: false, attempt });
	key(story, 'reading.taken', { ...shared, value: wanted, matched: true, attempt: times + 1 });
}

function readPattern(story: Story, face: string, on: Raw): void {
	const fan = patterns[face] ?? '';
	if (!story.vary.cards) {
		read(story, 'pattern', fan, fan === 'tall' ? 'wide' : 'tall', on);
		return;
	}
	const card = { tall: 'KR', wide: 'FM' };
	const [wanted, wrong] = fan === 'tall' ? ['KR', 'FM'] : ['FM', 'KR'];
	read(story, 'card', wanted, wrong, { ...on, card });
}

function gunCheck(story: Story, face: string, coat: number, size: 'full' | 'short'): void {
	const on = { face, coat };
	story.check++;
	const items = size === 'full' ? ['mask', 'batch', 'gauge', 'pattern'] : ['batch', 'pattern'];
	key(story, 'check.began', { check: story.check, list: 'gun-check', size, items, ...on });
	if (size === 'full') read(story, 'breathing', 'supplied-air', 'filter-mask', on);
	read(story, 'batch', story.cup.join('+'), 'Z', on);
	if (size === 'full') read(story, 'gauge', 200, 150, on);
	key(story, 'gun.set', { horns: hornsOf(story, face), pressure_kPa: null, fanHeight_mm: null, fluid: null });
	readPattern(story, face, on);
	join(story.draft);
	add(story.draft, 'gun.checked', {
		check: story.check,
		size,
		...on,
		cup: story.cup,
		horns: hornsOf(story, face),
		tilt: tiltOf(story, face),
	});
}

function beforeSpraying(story: Story): void {
	story.check++;
	const list = { check: story.check, list: 'before-spraying' };
	key(story, 'check.began', { ...list, size: null, items: ['mask', 'extractor'], face: null, coat: null });
	key(story, 'item.answered', { ...list, item: 'mask', answer: 'supplied-air', passed: true });
	key(story, 'item.answered', { ...list, item: 'extractor', answer: 'on', passed: true });
}

function readAir(story: Story): void {
	const { surfaceC } = story.vary;
	const air = { airC: 21, humidity: 0.5, surfaceC, dewPointC: 10.2, spray: true, reasons: [] };
	story.air = Number(key(story, 'air.read', air).seq);
}

function mix(story: Story, batch: string): void {
	const ratio = { base: 2, hardener: 1, reducer: 1 };
	key(story, 'batch.started', { batch, material: 'cart-green', ratio, by: 'volume', make_mL: 400 });
	key(story, 'batch.stepped', { batch, step: 'stir' });
	const pour = (component: string, can: string, wanted_mL: number) =>
		key(story, 'batch.poured', { batch, component, can, level_mL: wanted_mL + 1, wanted_mL, found: 'right' });
	pour('base', 'ring', 200);
	pour('hardener', 'cross', 300);
	key(story, 'batch.stepped', { batch, step: 'stir' });
	pass(story.draft, 300);
	key(story, 'batch.stood', { batch });
	key(story, 'batch.stepped', { batch, step: 'stir' });
	pour('reducer', 'bar', 400);
	key(story, 'batch.stepped', { batch, step: 'stir' });
	key(story, 'batch.stepped', { batch, step: 'strain' });
	key(story, 'cup.timed', { batch, cup: 'ford4', seconds: 21, tempC: 21, fits: true });
	join(story.draft);
	add(story.draft, 'batch.ready', { batch, volume_mL: 400 });
	key(story, 'batch.loaded', { batch, volume_mL: 400, refill: false });
	story.cup = [...story.cup, batch];
}

function start(story: Story, face: string, coat: number, more: Raw = {}): void {
	const under = {
		cup: story.cup,
		check: story.check,
		air: story.air,
		overrides: [],
		window: 'spray',
		from: 'start',
	};
	key(story, 'face.started', { face, coat, ...under, spray_s: 40, ...more });
	pass(story.draft, 40);
}

/** The least flash of the sheet on its surface, h: colder it is longer, and no warmth makes it shorter. */
const flash_h = ({ vary }: Story): number => 0.5 * Math.max(1, 2 ** ((21 - vary.surfaceC) / 10));
/** The most: warmer it is shorter, and no cold makes it longer. */
const flashEnd_h = ({ vary }: Story): number => 1.5 * Math.min(1, 2 ** ((21 - vary.surfaceC) / 10));

function windowsSet(story: Story, face: string, coat: number, ended: number): void {
	const at = (hours: number) => new Date(ended + Math.ceil(hours * 3_600_000)).toISOString();
	const flash = [at(flash_h(story)), at(flashEnd_h(story))];
	const windows = [
		{ does: 'wait', from: at(0), until: flash[0] },
		{ does: 'spray', from: flash[0], until: flash[1] },
		{ does: 'wait', from: flash[1], until: at(8) },
		{ does: 'spray', from: at(8), until: at(12) },
	];
	join(story.draft);
	add(story.draft, 'window.set', { face, coat, surfaceC: story.vary.surfaceC, windows });
}

function end(story: Story, face: string, coat: number, extent = 'all'): void {
	const lastStroke = extent === 'part' ? 4 : null;
	key(story, 'face.ended', { face, coat, extent, lastStroke, estimated: false });
	if (extent === 'all') windowsSet(story, face, coat, story.draft.t);
}

function waitFor(story: Story, face: string, coat: number, minutes: number, why: string): void {
	const due = new Date(story.draft.t + minutes * 60_000).toISOString();
	key(story, 'wait.began', { face, coat, due, why });
	pass(story.draft, minutes * 60);
	add(story.draft, 'wait.ended', { face, coat, due });
	pass(story.draft, story.vary.late_min * 60);
	if (why !== 'flash') return;
	const touch = { feature: 'touch', value: 'tacky', wanted: ['tacky', 'dry'], matched: true, attempt: 1 };
	key(story, 'reading.taken', { ...touch, check: null, face, coat, batch: null, faces: [lid, door] });
}

function visitor(story: Story, face: string, coat: number, before: () => void = () => undefined): void {
	const { visit_s, killed, broken } = story.vary;
	pass(story.draft, 5);
	add(story.draft, 'break.began', { kind: 'hold', by: 'painter' });
	pass(story.draft, visit_s);
	if (killed) {
		Object.assign(story.draft, { run: story.draft.run + 1, mono: 0 });
		add(story.draft, 'break.began', { kind: 'restart', by: 'program' });
	}
	key(story, 'break.ended', { kind: killed ? 'restart' : 'hold', by: 'painter' });
	const told = { feature: 'last-face', value: broken, wanted: null, matched: true, attempt: 1 };
	key(story, 'reading.taken', { ...told, check: null, face, coat, batch: null });
	before();
	end(story, face, coat, broken);
	if (broken === 'all') return;
	pass(story.draft, 10);
	gunCheck(story, face, coat, 'full');
	start(story, face, coat, { from: broken === 'part' ? 'part' : 'start' });
	end(story, face, coat);
}

function open(vary: Variation): Story {
	const story: Story = { draft: newDraft('2027-03-02T06:00:00.000Z'), vary, check: 0, air: 0, cup: [] };
	add(story.draft, 'day.opened', {
		v: 1,
		program: '0.1.0',
		job: 'coffee cart',
		sheet: cartSheet(story.vary.stretch ? 90 : 0),
		lists: cartLists,
		settings: {},
		clock: 'moved',
		zone: 'UTC',
		cans: cartCans,
		before: { faces: {}, letters: 0 },
	});
	return story;
}

/** One key starts both faces; the visitor comes near the end, and the painter says the door was the last. */
function firstStretch(story: Story): void {
	start(story, lid, 1);
	Object.assign(story.draft, { t: story.draft.t - 40_000, mono: story.draft.mono - 40_000 });
	const { at } = story.draft.records.at(-1) ?? {};
	const under = {
		cup: story.cup,
		check: story.check,
		air: story.air,
		overrides: [],
		window: 'spray',
		from: 'start',
	};
	join(story.draft);
	add(story.draft, 'face.started', { face: door, coat: 1, ...under, spray_s: 40 });
	pass(story.draft, 80);
	const half = Date.parse(String(at)) + 40_000;
	const share = { face: lid, coat: 1, extent: 'all', lastStroke: null, estimated: true };
	visitor(story, door, 1, () => {
		key(story, 'face.ended', { ...share, began: at, ended: new Date(half).toISOString() });
		windowsSet(story, lid, 1, half);
	});
}

/** Both faces get their first coat, the cap turned between them; the visitor comes while the door is sprayed. */
function firstCoat(story: Story): void {
	key(story, 'day.planned', { stage: 1, coat: 1, faces: [lid, door], order: 'sheet' });
	for (const face of [lid, door]) key(story, 'stage.done', { face, stage: 'tack', grit: null });
	readAir(story);
	beforeSpraying(story);
	mix(story, 'A');
	if (story.vary.joined) mix(story, 'B');
	gunCheck(story, lid, 1, 'full');
	if (story.vary.stretch) {
		firstStretch(story);
		return;
	}
	start(story, lid, 1);
	end(story, lid, 1);
	key(story, 'gun.unknown', { why: 'cap-turn' });
	gunCheck(story, door, 1, 'short');
	start(story, door, 1);
	visitor(story, door, 1);
}

/** The door has a run and is set aside; the lid gets its second coat. */
function secondCoat(story: Story): void {
	key(story, 'fault.seen', { fault: 'run', face: door, coat: 1 });
	key(story, 'part.setAside', { part: 'left door', faces: [door], why: 'run' });
	waitFor(story, lid, 2, 60 * flash_h(story), 'flash');
	gunCheck(story, lid, 2, 'full');
	start(story, lid, 2);
	end(story, lid, 2);
}

/** The door sets up, is sanded and cleaned, and gets its first coat again and its second, from a new batch. */
function rework(story: Story): void {
	story.cup = [];
	key(story, 'cup.emptied', { volume_mL: 120, why: 'cleaning' });
	key(story, 'gun.unknown', { why: 'cleaned' });
	waitFor(story, door, 1, 9 * 60, 'rework');
	for (const step of ['set-up', 'sand', 'clean']) key(story, 'rework.done', { face: door, step });
	readAir(story);
	mix(story, 'C');
	gunCheck(story, door, 1, 'full');
	start(story, door, 1);
	end(story, door, 1);
	waitFor(story, door, 2, 60 * flash_h(story), 'flash');
	gunCheck(story, door, 2, 'full');
	start(story, door, 2);
	end(story, door, 2);
}

/** The records of a whole sound day. */
export function cartDay(vary: Partial<Variation> = {}): Raw[] {
	const story = open({ ...plain, ...vary });
	firstCoat(story);
	secondCoat(story);
	rework(story);
	key(story, 'day.closed', { job: 'coffee cart', why: 'done' });
	return story.draft.records;
}
