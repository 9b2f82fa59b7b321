import { expect } from 'vitest';
import type { Moment } from './day-as-met.ts';
import type { Painter } from './painter.ts';
import { coatOf, faces, hornsFor, nextFace, plannedCoats } from './truth.ts';

/** What must hold on the screen at each moment of the day, by what the model knows. */

const secondFeatures = ['gauge', 'horns', 'pattern-height', 'flooded', 'pair', 'level'];

/** What may be asked in each state of the chart. */
const mayAsk: Record<string, readonly string[]> = {
	list: ['pair', 'breathing', 'item'],
	listOpen: ['choose'],
	listOn: ['pair', 'breathing', 'item'],
	air: ['number'],
	airNo: ['choose'],
	bench: ['choose', 'do'],
	baseCan: ['can'],
	basePour: ['do'],
	baseLevel: ['level'],
	hardenerCan: ['can'],
	hardenerPour: ['do'],
	hardenerLevel: ['level'],
	overPoured: ['can'],
	standing: ['wait'],
	straining: ['choose', 'item', 'number'],
	loading: ['do'],
	potFound: ['number'],
	gear: ['do', 'pair', 'breathing', 'item'],
	atBench: ['do', 'batch', ...secondFeatures],
	paper: ['pattern', 'card'],
	wrongWay: ['do'],
	spoiled: ['do'],
	ready: ['go'],
	spraying: ['spraying'],
	overdue: ['spraying'],
	oneGo: ['one-go'],
	account: ['last-face'],
	edge: ['choose'],
	loose: ['choose', 'do', 'pair', 'breathing', 'item', 'wait'],
	wait: ['wait'],
	touch: ['touch'],
	finish: ['choose'],
	hold: ['hold'],
	closing: ['choose'],
	trouble: ['trouble'],
	aside: ['choose'],
	airLost: ['hold'],
	airBack: ['choose', 'number'],
	closed: ['closed'],
};

/** What the corners must offer, where the rules name it. */
const mustOffer: Record<string, readonly string[]> = {
	ready: ['start', 'trouble'],
	spraying: ['finished', 'trouble'],
	overdue: ['finished', 'trouble'],
	oneGo: ['yes', 'stopped'],
	account: ['none', 'part', 'all'],
	touch: ['strings', 'tacky', 'dry'],
	hold: ['back', 'close', 'trouble'],
	trouble: ['air-lost'],
	airBack: ['close'],
	wait: ['trouble'],
};

export async function expectMet(painter: Painter, moment: Moment) {
	const { context, value } = moment;
	const seen = painter.seen();
	const name = String(value);
	expect(mayAsk[name], `what may be asked in ${name}`).toContain(seen.ask);
	for (const code of mustOffer[name] ?? []) expect(painter.codes(), `offered in ${name}`).toContain(code);
	expect(painter.offers('start'), `START offered in ${name}`).toBe(name === 'ready');
	expect(seen.faces).toEqual(
		faces.map(face => ({
			face,
			coats: context.coats[face],
			planned: plannedCoats,
			aside: context.aside.includes(face),
		})),
	);
	await extra[name]?.(painter, moment);
}

const expectTold: Extra = (painter, { context }) => {
	const horns = hornsFor(context);
	const told = painter.seen().do.find(({ code }) => code === 'set-horns');
	if (context.told !== horns) expect(told?.to, 'the horns are told to be turned').toBe(horns);
	expect(painter.seen().cup, 'the batch is on no screen before it is read').toBeUndefined();
};

const expectPass: Extra = (painter, { context }) => {
	const { face, coat, cup } = painter.seen();
	expect({ face, coat, cup }).toEqual({
		face: nextFace(context),
		coat: coatOf(context),
		cup: painter.hands.cup,
	});
	expect(painter.hands.horns, 'the horns stand as the face wants them').toBe(hornsFor(context));
};

const expectNoPaint: Extra = painter => {
	const { face, cup, timers } = painter.seen();
	expect({ face, cup, timers }, 'nothing about paint or gun').toEqual({
		face: null,
		cup: undefined,
		timers: [],
	});
};

const expectNothingElse: Extra = painter => {
	const codes = painter.seen().timers.map(({ code }) => code);
	expect(
		codes.filter(code => code !== 'late'),
		'nothing else is shown while a face is sprayed',
	).toEqual([]);
};

const expectClosed: Extra = async painter => {
	expect((await painter.knock('hold')).accepted, 'hold in a closed day').toBe(false);
	for (const line of ['kill', 'sleep 1 h', 'top-left']) {
		expect((await painter.knock(line)).ask, `a closed day after ${line}`).toBe('closed');
	}
};

type Extra = (painter: Painter, moment: Moment) => void | Promise<void>;
const extra: Record<string, Extra> = {
	gear: expectTold,
	atBench: (painter, moment) => {
		if (moment.context.due === 'short' || painter.seen().ask === 'batch') expectTold(painter, moment);
	},
	ready: expectPass,
	spraying: (painter, moment) => {
		expectPass(painter, moment);
		expectNothingElse(painter, moment);
	},
	overdue: expectNothingElse,
	closed: expectClosed,
	airLost: expectNoPaint,
	airBack: expectNoPaint,
};
