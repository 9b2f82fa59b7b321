import { decide } from '../../src/day/decide.ts';
import { deadlineOf, following } from '../../src/day/follow.ts';
import { type Instant, sameClocks } from '../../src/day/instant.ts';
import { openingRecord } from '../../src/day/open.ts';
import { freshUi, type Ui } from '../../src/day/prompt.ts';
import type { BreakKind, DayEvent, EventType } from '../../src/day/records.ts';
import { type Settings, settingsSchema } from '../../src/day/settings.ts';
import { type DayState, fold } from '../../src/day/state.ts';
import { transact } from '../../src/day/transact.ts';
import { type Corner, corners, type View } from '../../src/day/view.ts';
import { viewOf } from '../../src/day/view-of.ts';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';

/** A day answered line by line, as a model: a line leads from where a day stands to where it stands then. */

export type Pair = `${string} ${EventType}`;

export type Stand = {
	day: DayState;
	ui: Ui;
	now: Instant;
	view: View;
	/** The level said last for the pot, in the unit on the screen. */
	level: number;
	/** State and type of each record that the last line made. */
	made: readonly Pair[];
};

export type Line = { type: string };

const words: Record<Corner, string> = {
	topLeft: 'top-left',
	topRight: 'top-right',
	bottomLeft: 'bottom-left',
	bottomRight: 'bottom-right',
};
const cornerOf = new Map(corners.map(corner => [words[corner], corner]));

function stand(before: Pick<Stand, 'level' | 'made'>, day: DayState, ui: Ui, now: Instant): Stand {
	const view = viewOf({ state: day, now }, ui, true);
	const pour = view.do.find(({ code }) => code === 'pour');
	return { day, ui, now, view, level: pour ? Number(pour.to) : before.level, made: before.made };
}

/** Where a day of a job stands when it is opened. */
export function openingStand(
	job: Job,
	lists: Checklist[],
	start: number,
	settings: Partial<Settings> = {},
): Stand {
	const opening = {
		job,
		lists,
		settings: settingsSchema.parse({ by: 'face', ...settings }),
		clock: 'moved' as const,
		program: '0.0.0',
		before: { faces: {}, letters: 0 },
		zone: 'UTC',
	};
	const now = { wall: start, mono: 0, run: 1, sure: 0, gaps: [] };
	return put({ level: 0, made: [] }, fold(null, openingRecord(opening, now)), [], freshUi, now);
}

/** Events put to a day, with what follows on them. */
function put(
	before: Pick<Stand, 'level' | 'made'>,
	day: DayState,
	events: readonly DayEvent[],
	ui: Ui,
	now: Instant,
): Stand {
	const { records, state } = transact(day, events, now);
	let at = day;
	const made = [...before.made];
	for (const record of records) {
		made.push(`${String(at.machine.value)} ${record.type}`);
		at = fold(at, record);
	}
	return stand({ level: before.level, made }, state, ui, records.length > 0 ? state.book.now : now);
}

/** Deadlines up to a moment, in order, and what has come to follow by then. */
function passed(start: Stand, ms: number): Stand {
	let at = start;
	const end = start.now.wall + ms;
	const later = (wall: number): Instant => sameClocks(at.now, wall);
	for (let step = 0; step < 50; step++) {
		const due = deadlineOf({ state: at.day, now: at.now });
		if (!due || due.at > end) break;
		const now = later(Math.max(due.at, at.now.wall));
		const next = put(at, at.day, due.events, due.events.length > 0 ? freshUi : at.ui, now);
		if (next.made.length === at.made.length) break;
		at = next;
	}
	const now = later(end);
	const follow = following({ state: at.day, now });
	if (follow.length === 0) return stand(at, at.day, at.ui, now);
	// A window that moves changes no question: what is half keyed stays.
	const ui = follow.every(({ type }) => type === 'window.moved') ? at.ui : freshUi;
	return put(at, at.day, [], ui, now);
}

const byProgram = (at: Stand, kind: BreakKind, now: Instant = at.now): Stand =>
	at.day.machine.value === 'closed'
		? at
		: put(at, at.day, [{ type: 'break.began', kind, by: 'program' }], freshUi, now);

/** Where a line leads. */
export function taken(before: Stand, { type: line }: Line): Stand {
	const at = { ...before, made: [] };
	const [word = '', first = '', unit] = line.split(' ');
	const moment = { state: at.day, now: at.now };
	switch (word) {
		case 'wait':
			return passed(at, Number(first) * (unit === 'min' ? 60_000 : 1000));
		case 'hangup':
			return byProgram(at, 'hangup');
		case 'kill':
			return byProgram(at, 'restart', { ...at.now, run: at.now.run + 1 });
		case 'clock':
			return byProgram(at, 'clock', { ...at.now, wall: at.now.wall - 3_600_000 });
		case 'trigger':
			if (at.day.machine.value === 'closed') return at;
			return put(at, at.day, [{ type: first === 'on' ? 'trigger.on' : 'trigger.off' }], at.ui, at.now);
		default: {
			const corner = cornerOf.get(word);
			const key = word === 'hold' ? ('hold' as const) : corner;
			const decision = decide(moment, at.ui, key ? { key } : { number: Number(first) });
			if ('refused' in decision) return at;
			return put(at, at.day, decision.events, decision.ui, at.now);
		}
	}
}

/** Numbers keyed where one is asked: what is there, and what is not. */
function numbers({ view, level, day }: Stand): number[] {
	switch (view.of ?? view.ask) {
		case 'airC':
			return [21, 40];
		case 'surfaceC':
		case 'tempC':
			return [21];
		case 'humidity':
			return [50];
		case 'seconds':
			return [16, 40];
		case 'stroke':
			return [2];
		case 'gauge':
		case 'pattern-height': {
			const { pressure_kPa, fanHeight_mm } = day.book.opened.sheet.gun;
			const wanted = view.ask === 'gauge' ? pressure_kPa : fanHeight_mm;
			return [wanted, wanted / 2];
		}
		default:
			return [level, level * 2];
	}
}

/** The lines of a painter to whom nothing happens. */
export function wantedAt(at: Stand): Line[] {
	const { view } = at;
	const left = view.timers[0]?.left_s;
	const asksNumber = view.min !== undefined;
	const lines = [
		...corners.filter(corner => view.corners[corner]).map(corner => words[corner]),
		...(asksNumber
			? numbers(at)
					.slice(0, 1)
					.map(number => `number ${number}`)
			: []),
		...(left !== undefined && view.ask === 'wait' ? [`wait ${Math.max(1, left)} s`] : []),
	];
	return lines.map(type => ({ type }));
}

/** Lines that mean something where a day stands. */
export function linesAt(at: Stand): Line[] {
	const { view } = at;
	const left = view.timers[0]?.left_s;
	const asksNumber = view.min !== undefined;
	const lines = [
		...corners.filter(corner => view.corners[corner]).map(corner => words[corner]),
		...(asksNumber ? numbers(at).map(number => `number ${number}`) : []),
		...(view.ask === 'spraying' ? ['wait 30 s', 'wait 200 s'] : []),
		...(left !== undefined && view.ask !== 'spraying' ? [`wait ${Math.max(1, left)} s`] : []),
		...(view.ask === 'go' ? ['wait 100 s', 'wait 25 min'] : []),
		'trigger on',
		'trigger off',
		'hold',
		'kill',
		'hangup',
		'clock -1 h',
	];
	return lines.map(type => ({ type }));
}

/** Two stands of one key are asked the same, with faces, batches and gun in the same places. */
export function keyOfStand({ day, view, ui }: Stand): string {
	const { value, context } = day.machine;
	if (value === 'closed') return value;
	const has = (...states: string[]) =>
		Object.values(context.batches).some(batch => states.includes(String(batch.value)));
	const broken = context.faces.filter(face => face.matches('broken')).length;
	const held = [
		value,
		view.state,
		ui.path.filter(answer => typeof answer === 'number').join('+'),
		broken,
		has('adrift', 'standing'),
		context.cup.length > 0,
	];
	if (value === 'hold') return held.join('|');
	const faces = context.faces.map(
		face => `${String(face.value)}${face.context.laid}${face.context.overrides.join('')}`,
	);
	const inHand = Object.values(context.batches).find(
		batch => !['ready', 'inCup', 'discarded'].includes(String(batch.value)),
	);
	return [
		...held,
		faces.join(),
		inHand && `${String(inHand.value)}${inHand.context.todo.length}`,
		has('ready'),
		context.late,
		context.gun.value,
		context.listsDone.length > 1,
	].join('|');
}
