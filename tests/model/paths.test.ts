import { expect, test } from 'vitest';
import { dayMachine } from '../../machines/day.ts';
import { type DayRecord, type EventType, eventTypes } from '../../src/day/records.ts';
import { type DayState, fold } from '../../src/day/state.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { chanceOf } from './keys/chance.ts';
import type { Pair } from './line-model.ts';
import { allWays, type Way } from './line-ways.ts';
import { asTheyAre } from './machines.ts';
import { listedIn } from './walk-day.ts';

/** Each shortest way is gone on the program itself: once as it is, and with a break before its last line. */

/** Pairs that no line leads to, and why. */
const withoutLine: readonly { states: readonly string[]; types: readonly EventType[]; why: string }[] = [
	{
		states: ['bench', 'list', 'mix', 'check', 'ready', 'spraying', 'wait', 'hold'],
		types: ['film.read', 'photo.kept'],
		why: 'added to a day after it is closed, by `fanwise inspect`',
	},
	{
		states: ['closed'],
		types: [
			...(['day.planned', 'clock.set', 'air.read', 'window.set', 'window.moved'] as const),
			...(['trigger.on', 'trigger.off'] as const),
			...(['fault.seen', 'part.setAside', 'film.read', 'photo.kept', 'face.judged'] as const),
		],
		why: 'a closed day takes no line; what is added to it comes by `fanwise inspect`',
	},
	{
		states: ['bench', 'list', 'mix', 'check', 'ready', 'spraying', 'wait'],
		types: ['fault.seen'],
		why: 'trouble is told in a hold, which its key begins',
	},
	{
		states: ['list', 'mix', 'check', 'spraying', 'wait'],
		types: ['day.planned', 'air.read', 'window.set'],
		why: 'made at the bench, or with the gun known: nowhere else is asked for the air or looked ahead',
	},
	{
		states: ['hold'],
		types: ['day.planned'],
		why: 'nothing is planned in a hold',
	},
	{ states: ['ready'], types: ['cup.emptied'], why: 'a cup too empty for a pass is found at the bench' },
	{ states: ['ready'], types: ['air.read'], why: 'asked for at the bench, to which a stale reading leads' },
	{
		states: ['ready'],
		types: ['override.given', 'part.setAside'],
		why: 'asked at the bench or in a hold, to which the need of it leads',
	},
	{
		states: ['wait'],
		types: ['reading.taken', 'rework.done'],
		why: 'what is set aside sets up longer than any wait of days so small',
	},
	{
		states: ['wait'],
		types: ['day.closed', 'check.began', 'stage.done', 'batch.discarded'],
		why: 'a wait is left first: by its end, or by a hold',
	},
];

const reasonFor = (state: string, type: EventType) =>
	withoutLine.find(({ states, types }) => states.includes(state) && types.includes(type))?.why;

const isRefused = (state: string, type: EventType) => state === 'closed' && type === 'break.began';
const lists = listedIn(asTheyAre);
const pairs = Object.keys(dayMachine.root.states).flatMap(state =>
	eventTypes
		.filter(type => lists(state, type) && !isRefused(state, type))
		.map(type => ({ state, type, pair: `${state} ${type}` as Pair })),
);

const cornerWords = ['top-left', 'top-right', 'bottom-left', 'bottom-right'];
const ways = allWays();

test('every pair of a state and an event that its chart takes has a way by lines, or a reason why not', () => {
	const without = pairs.filter(({ pair }) => !ways.has(pair));
	expect(without.filter(({ state, type }) => !reasonFor(state, type)).map(({ pair }) => pair)).toEqual([]);
	const both = pairs.filter(({ pair, state, type }) => ways.has(pair) && reasonFor(state, type));
	expect(both.map(({ pair, state, type }) => `${pair}: ${reasonFor(state, type)}`)).toEqual([]);
	const listed = new Set(pairs.map(({ pair }) => pair));
	expect([...ways.keys()].filter(pair => !listed.has(pair))).toEqual([]);
});

/** The lines of a way put to the program, each made to write what the model says it does. */
function gone({ job, settings, lines, made }: Way, count: number) {
	const day = rehearsed({ job, settings });
	lines.slice(0, count).forEach((line, index) => {
		const { events } = day.send(line);
		expect(events, `${line}, line ${index + 1} of ${lines.join(', ')}`).toEqual(
			(made[index] ?? []).map(pair => pair.split(' ')[1]),
		);
	});
	return day;
}

/** The last so many records, each with the state that it was made in. */
function madeIn(records: readonly DayRecord[], last: number): Pair[] {
	let at: DayState | null = null;
	return records
		.map((record): Pair => {
			const state = at === null ? 'bench' : String(at.machine.value);
			at = fold(at, record);
			return `${state} ${record.type}`;
		})
		.slice(records.length - last);
}

/** Lines out of the blue. */
const odd = ['hold', 'kill', 'hangup', 'sleep 2 min', 'clock -1 h', 'wait 40 s', 'trigger on', 'number 25'];

test('what is said to have no way is met by no day, however it is played; and a closed day takes no line', () => {
	for (let seed = 1; seed <= 12; seed++) {
		const chance = chanceOf(seed);
		const day = rehearsed({ seed, settings: { by: seed % 2 ? 'face' : 'stretch' } });
		for (let count = 0; count < 250 && day.line().ask !== 'closed'; count++)
			day.send(
				chance.next() < 0.15 ? chance.pick([...odd, ...cornerWords]) : (day.painter.answer(day.line()) ?? ''),
			);
		const met = madeIn(day.records(), day.records().length);
		const denied = met.filter(pair => !ways.has(pair) && pair !== 'bench day.opened');
		const [state = '', type] = denied[0]?.split(' ') ?? [];
		expect(denied, reasonFor(state, type as EventType)).toEqual([]);
		day.toEnd();
		const closed = day.records().length;
		day.send(...odd, ...cornerWords, 'trigger off', 'text because');
		expect(day.records().length).toBe(closed);
	}
});

test('gone on the program, every shortest way writes the record that it leads to, and its file passes the checker', () => {
	for (const [pair, way] of ways) {
		const day = gone(way, way.lines.length - 1);
		const before = way.lines.length === 0 ? 0 : day.records().length;
		if (way.lines.length > 0) day.send(way.lines.at(-1) ?? '');
		const wrote = day.records().slice(before);
		expect(madeIn(day.records(), wrote.length), pair).toContain(pair);
		expect(day.findings(), pair).toEqual([]);
	}
});

test.each(['hold', 'kill'])(
	'with a %s before its last line, each comes to hold, and no face is sprayed before a full check has passed',
	broken => {
		let sprayed = 0;
		for (const [pair, way] of ways) {
			if (way.lines.length === 0) continue;
			const day = gone(way, way.lines.length - 1);
			if (day.line().ask === 'closed') continue;
			expect(day.send(broken).ask, pair).toBe('hold');
			const held = day.records().length;
			day.send(way.lines.at(-1) ?? '');
			const next = day
				.records()
				.slice(held)
				.map(({ type }) => type);
			expect(next, pair).not.toContain('gun.checked');
			expect(next, pair).not.toContain('face.started');
			day.until(({ ask }) => ask === 'spraying' || ask === 'closed');
			const after = day.records().slice(held);
			const start = after.findIndex(({ type }) => type === 'face.started');
			if (start < 0) continue;
			sprayed++;
			const full = after
				.slice(0, start)
				.filter(record => record.type === 'gun.checked' && record.size === 'full');
			expect(full.length, pair).toBeGreaterThan(0);
			expect(day.findings(), pair).toEqual([]);
		}
		expect(sprayed).toBeGreaterThan(ways.size / 2);
	},
);
