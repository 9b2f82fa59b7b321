import { expect } from 'vitest';
import type { Act, Break } from './acts.ts';
import type { Moment } from './day-as-met.ts';
import type { Painter } from './painter.ts';
import { nextFace } from './truth.ts';

/** How each act of the chart is done at a rehearsal, and what must be answered on the way. */

type Play = (painter: Painter, then: Moment) => Promise<void>;

const flash_s = 45 * 60;
const standing_s = 10 * 60;

/** A reading that differs stops: what to do is told, and after DONE the same is asked afresh. */
async function stopped(painter: Painter, afresh: string) {
	expect(painter.seen().events, 'a reading that differs is on record').toContain('reading.taken');
	expect(painter.seen().ask, 'a reading that differs stops').toBe('do');
	await painter.answer();
	expect(painter.seen().ask, 'and is asked afresh').toBe(afresh);
}

/** A wait that ends neither before its time nor long after. */
async function waitOut(painter: Painter, left_s: number) {
	if (left_s > 10) {
		await painter.pass(left_s - 5);
		expect(painter.seen().ask, 'a wait ends not before its time').toBe('wait');
	}
	for (let times = 0; painter.seen().ask === 'wait' && times < 16; times++) await painter.pass(100);
}

async function untilChecked(painter: Painter) {
	while (painter.seen().timers.some(({ code }) => code === 'settle')) await painter.pass(10);
}

const press =
	(code: string): Play =>
	painter =>
		painter.press(code);
const answer: Play = painter => painter.answer();

/** Something breaks in: in the middle of a pass, if the gun is in the hand. */
const breakIn =
	(line: string, moved_s = 0): Play =>
	async painter => {
		if (painter.seen().ask === 'spraying') await sprayOn(painter, 4);
		painter.ledger.broke();
		if (moved_s) await painter.pass(moved_s, 'sleep');
		else await painter.say(line);
	};

async function sprayOn(painter: Painter, seconds: number) {
	const { face } = painter.seen();
	await painter.pass(seconds);
	painter.sprayed(face);
}

/** Tells how much of a face is on; after a wet fault also which fault it is, and where. */
const tell =
	(extent: string): Play =>
	async (painter, then) => {
		await painter.press(extent);
		const { ask, of, min = 1 } = painter.seen();
		if (ask === 'number' && of === 'stroke') await painter.say(`number ${min + 3}`);
		if (then.value === 'aside') await tellFault(painter, then);
	};

async function tellFault(painter: Painter, { context }: Moment) {
	await painter.press('run');
	await painter.press(context.fault ?? '');
}

const turnNothing: Play = async painter => {
	const told = painter.seen().do.find(({ code }) => code === 'set-horns');
	painter.hands.told = told?.to === 'level' ? 'level' : 'upright';
	await painter.press('done');
};

const otherCan: Play = async painter => {
	await painter.pressOne(['arrow', 'bars']);
	expect(
		painter.seen().do.map(({ code }) => code),
		'nothing is poured from a wrong can',
	).not.toContain('pour');
	await stopped(painter, 'can');
};

/** Pours other than told, and says that it is done. */
const pourOther =
	(over: number): Play =>
	async ({ hands, seen, press: strike }) => {
		const to = Number(seen().do.find(({ code }) => code === 'pour')?.to);
		hands.pot_mL += over && to - hands.pot_mL + Math.ceil((to - hands.pot_mL) * over);
		if (over) hands.poured += 1;
		await strike('done');
	};

const atPot = {
	MIX: async painter => {
		await painter.answer();
		await painter.answerWhile('item');
	},
	MIX_PLENTY: async painter => {
		await painter.press('amount');
		painter.beginPot();
		await painter.say('number 300');
		await painter.answerWhile('item');
	},
	TAKE_CAN: answer,
	TAKE_WRONG_CAN: otherCan,
	POUR: answer,
	POUR_NOTHING: pourOther(0),
	POUR_TOO_MUCH: pourOther(0.2),
	READ_LEVEL: async (painter, then) => {
		await painter.answer();
		/** The larger batch, if the pot holds it. */
		if (painter.seen().state === 'mix.rim') await painter.press('holds');
		expect(painter.seen().events, 'the level is on record').toContain('batch.poured');
		if (then.context.pot === 'over') painter.hands.poured = 0;
		/** The last pour is stirred in. */
		await painter.answerWhile('item');
	},
	TOP_UP: async painter => painter.answerWhile('can', 'do', 'level', 'item'),
	STAND: async painter => {
		await waitOut(painter, painter.clock.whole_s + standing_s - painter.clock.elapsed_s);
	},
	STRAIN: async painter => painter.answerWhile('choose', 'item', 'number'),
	FILL_CUP: answer,
	PREPARE: async painter => {
		for (let times = 0; !checkBegins(painter); times++) {
			if (times > 60) throw new Error('the mixing does not end');
			if (painter.seen().ask === 'wait') await waitOut(painter, 0);
			else await painter.answer();
		}
	},
	TELL_LEVEL: async (painter, then) => {
		await painter.answer();
		if (then.context.pot === 'over') painter.hands.poured = 0;
		await painter.answerWhile('item');
	},
	CANNOT_TELL_LEVEL: async painter => {
		await painter.press('cannot-tell');
		expect(painter.seen().events, 'a pot whose contents are unknown is discarded').toContain(
			'batch.discarded',
		);
	},
} satisfies Partial<Record<Act, Play>>;

const checkBegins = (painter: Painter) =>
	['pair', 'breathing'].includes(painter.seen().ask) ||
	painter.seen().do.some(({ code }) => code === 'set-horns');

/** Answers of a pair that have each of the two asked by itself. */
const apart = ['loaded', 'weak', 'something', 'missing'];

const atLists = {
	ANSWER_LIST: async painter => painter.answerWhile('pair', 'breathing', 'item'),
	SAY_FILTER_MASK_LISTED: async painter => {
		await painter.press('filter-mask');
		if (painter.seen().ask === 'do') await painter.answer();
		expect(painter.seen().ask, 'only supplied air is accepted').toBe('breathing');
	},
	LEAVE_OPEN: async painter => {
		if (painter.seen().ask === 'pair') await painter.pressOne(apart);
		await painter.answerWhile('breathing');
		await painter.pressOne(['low', 'weak', 'something']);
	},
	ASK_AGAIN: press('ask-again'),
	READ_AIR: async painter => painter.answerWhile('number'),
	READ_DAMP_AIR: async painter => {
		for (const _ of ['airC', 'humidity', 'surfaceC']) {
			if (painter.seen().of === 'humidity') await painter.say('number 90');
			else await painter.answer();
		}
	},
	READ_AIR_AGAIN: press('read-again'),
	CLEAN_UP: async painter => {
		await painter.answer();
		await painter.answerWhile('number', 'item');
		if (painter.offers('close')) await painter.press('close');
	},
} satisfies Partial<Record<Act, Play>>;

const others: Record<string, (painter: Painter) => Promise<void>> = {
	gauge: painter => painter.say('number 150'),
	'pattern-height': painter => painter.say('number 120'),
	flooded: painter => painter.press('one-sided'),
	horns: painter => painter.press('between'),
};

const atGun = {
	GEAR: async painter => painter.answerWhile('do', 'pair', 'breathing', 'item'),
	SAY_FILTER_MASK: async painter => {
		await painter.answerWhile('do');
		await painter.press('filter-mask');
		await stopped(painter, 'breathing');
	},
	SEE_WEAK_EXTRACTOR: async painter => {
		await painter.answerWhile('do');
		if (painter.seen().ask === 'pair') await painter.pressOne(apart);
		await painter.answerWhile('breathing');
		await painter.press('weak');
		expect(painter.seen().ask, 'an open item keeps the check open').toBe('choose');
		await painter.answerWhile('choose', 'item');
	},
	LEAVE_UNTURNED: turnNothing,
	READ_AT_BENCH: async painter =>
		painter.answerWhile('do', 'batch', 'gauge', 'horns', 'pattern-height', 'flooded'),
	READ_OTHER_LETTER: async painter => {
		await painter.answerWhile('do');
		await painter.press('another');
		await stopped(painter, 'batch');
	},
	READ_OTHER_SECOND: async painter => {
		await painter.answerWhile('do', 'batch');
		const { ask } = painter.seen();
		await others[ask]?.(painter);
		await stopped(painter, ask);
	},
	SHOOT_PATTERN: async painter => {
		await painter.answer();
		await untilChecked(painter);
	},
	SAY_BAD_PATTERN: press('bad'),
	TURN_HORNS: async painter => {
		painter.hands.told = null;
		await stopped(painter, 'pattern');
	},
	/** Whoever takes the cap off puts it back as was told, whether that is told again or not. */
	CLEAN_CAP: async painter => {
		painter.hands.horns = painter.hands.told ?? painter.hands.horns;
		await painter.answerWhile('do');
		expect(painter.seen().ask, 'the pattern is asked afresh').toBe('pattern');
	},
	STAND_IDLE: async painter => {
		painter.ledger.aged();
		await painter.pass(21 * 60);
		if (painter.seen().ask !== 'hold') return;
		painter.ledger.broke();
		await painter.press('back');
		await painter.answerWhile('do', 'pair', 'breathing', 'item');
	},
} satisfies Partial<Record<Act, Play>>;

const atFace = {
	START: async painter => {
		await painter.press('start');
		if (painter.offers('start')) await painter.press('start');
	},
	FINISH: async painter => {
		await sprayOn(painter, 20);
		await painter.press('finished');
	},
	RUN_LATE: async painter => {
		await sprayOn(painter, 60);
		painter.ledger.broke();
	},
	IN_ONE_GO: press('yes'),
	STOPPED: press('stopped'),
	NONE: tell('none'),
	PART: tell('part'),
	ALL: tell('all'),
} satisfies Partial<Record<Act, Play>>;

const waiting = {
	WAIT_FOR_EDGE: press('wait-flash'),
	WAIT_OUT: async (painter, { context }) => {
		const face = nextFace(context);
		await waitOut(painter, face ? flash_s - painter.since_s(face) : 0);
	},
	TACKY: answer,
	STRINGS: async painter => painter.press('strings'),
	REST_OF_DAY: async painter => {
		for (let times = 0; !painter.offers('clean-up'); times++) {
			if (times > 200) throw new Error(`the day does not end: ${painter.seen().state}`);
			await goOn(painter);
		}
	},
} satisfies Partial<Record<Act, Play>>;

async function goOn(painter: Painter) {
	const { ask } = painter.seen();
	if (ask === 'wait') return painter.pass(60);
	if (ask === 'go') return painter.press('start');
	if (ask !== 'spraying') return painter.answer();
	await sprayOn(painter, 20);
	return painter.press('finished');
}

const held = {
	BACK: async (painter, then) => {
		await painter.press('back');
		if (painter.offers('clock-right')) await painter.press('clock-right');
		if (then.value !== 'potFound' && painter.seen().of === 'level_mL') await painter.answer();
	},
	STAY_AWAY: async painter => painter.pass(20 * 60),
	CLOSE: press('close'),
	SURE: press('close'),
	NOT_YET: press('not'),
	SET_ASIDE: async painter => painter.pressOne(['set-aside', 'set-part-aside']),
	KEEP_ON: press('keep-on'),
} satisfies Partial<Record<Act, Play>>;

const inTrouble = {
	TROUBLE: async painter => {
		if (painter.seen().ask === 'spraying') await sprayOn(painter, 4);
		painter.ledger.broke();
		await painter.press('trouble');
	},
	AIR_LOST: async painter => {
		if (painter.offers('trouble')) await painter.press('trouble');
		await painter.press('air-lost');
	},
	AIR_BACK: press('air-back'),
	AIR_NOT_BACK: async painter => {
		await painter.press('low');
		await painter.press('not-yet');
	},
	GUN_FAULT: async painter => {
		await painter.press('gun-fault');
		await painter.press('spits');
		await painter.answerWhile('do');
	},
	OUT_OF_PAINT: async painter => {
		await painter.press('out-of-paint');
		await painter.answerWhile('do');
	},
	WET_FAULT: async (painter, then) => {
		await painter.press('wet-fault');
		if (then.value === 'aside') await tellFault(painter, then);
	},
} satisfies Partial<Record<Act, Play>>;

const breaks: Record<Break, Play> = {
	HOLD: breakIn('hold'),
	KILL: breakIn('kill'),
	SLEEP: breakIn('', 30),
	HANGUP: breakIn('hangup'),
	CLOCK: breakIn('clock -1 min'),
};

/** The air is read again when the reading is old; no rule says when that is. */
async function readOldAir(painter: Painter) {
	if (painter.seen().of === 'airC') await painter.answerWhile('number');
}

const plays: Record<Act, Play> = {
	...atLists,
	...atPot,
	...atGun,
	...atFace,
	...waiting,
	...held,
	...inTrouble,
	...breaks,
};

/** Does an act at a rehearsal, which leads to this moment. */
export async function play(painter: Painter, act: Act, then: Moment) {
	await plays[act](painter, then);
	if (then.value !== 'air') await readOldAir(painter);
}
