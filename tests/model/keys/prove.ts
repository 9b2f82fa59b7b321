import { checkDayFile } from '../checker/check.ts';
import type { Proof } from '../proof.ts';
import { type Chance, chanceOf } from './chance.ts';
import { type DeskDay, deskDay } from './desk-day.ts';
import { noise, pieces } from './noise.ts';
import { painterKeys, type Stroke } from './painter-keys.ts';

/** Most records, and keys, of a day: then it is checked and a new one begins. */
const longest = { records: 1500, keys: 4000 };

type Done = { keys: number; answers: number; days: number; faces: number; restarts: number; says: string[] };

/** How long nothing is struck: bursts, hands, and now and then a while. */
function gap_ms(chance: Chance): number {
	const kind = chance.next();
	if (kind < 0.4) return chance.below(40);
	if (kind < 0.95) return 100 + chance.below(700);
	return chance.below(4000);
}

/** Bytes sent in pieces, and then a while. */
function send(day: DeskDay, chance: Chance, { bytes, wait_ms }: Stroke): void {
	for (const piece of pieces(bytes, chance)) {
		if (chance.next() < 0.1) day.time.pass(chance.below(80));
		if (chance.next() < 0.02) day.time.late(chance.below(400));
		day.send(piece);
		if (day.over()) return;
	}
	day.time.pass(wait_ms);
}

/** Something is struck; `helped`: how often it is what a painter would strike. */
function strike(day: DeskDay, chance: Chance, helped: number): void {
	const strokes =
		chance.next() < helped ? painterKeys(day) : [{ bytes: noise(chance), wait_ms: gap_ms(chance) }];
	for (const stroke of strokes) if (!day.over()) send(day, chance, stroke);
}

/** One day under keys, until it is closed, long, or the keys are used up. */
function strikeDay(seed: number, least: number, done: Done): void {
	const chance = chanceOf(seed);
	const setup = {
		cards: seed % 3 === 0,
		by: seed % 2 ? ('face' as const) : ('stretch' as const),
		oneKey: seed % 7 === 0,
	};
	const day = deskDay(setup, seed);
	let helped = 0.5;
	try {
		const most = Math.min(least, longest.keys);
		for (let sent = 0; day.counts.keys < most && day.records() < longest.records && !day.over(); sent++) {
			if (sent % 60 === 0) helped = chance.pick([0, 0.4, 0.8, 0.95, 0.99, 1]);
			strike(day, chance, helped);
		}
	} catch (error) {
		done.says.push(`day ${seed}: ${error instanceof Error ? error.stack : error}`);
	}
	day.shut();
	done.keys += day.counts.keys;
	done.answers += day.counts.answers;
	done.restarts += day.counts.restarts;
	done.faces += day.started();
	done.days++;
	if (day.counts.mostAKey > 1) done.says.push(`day ${seed}: ${day.counts.mostAKey} answers for one key`);
	for (const { line, property, says } of checkDayFile(day.bytes()))
		done.says.push(`day ${seed}, line ${line}, ${property}: ${says}`);
}

/**
 * Random keys through parser, hands and engine, with chunks cut and merged, pastes and escape sequences, a painter's
 * own keys among them so that they come deep into a day.
 * @param keys at least so many, as the parser tells them
 * @param firstSeed that of the first day; those after it count on
 */
export function proveKeys(keys: number, firstSeed = 1): Proof & Done {
	const done: Done = { keys: 0, answers: 0, days: 0, faces: 0, restarts: 0, says: [] };
	for (let seed = firstSeed; done.keys < keys && done.says.length < 20; seed++)
		strikeDay(seed, keys - done.keys, done);
	return {
		...done,
		property:
			'no keys, however they come, spray unchecked, break the program, or make two transitions of one key',
		how: 'keyboard, key guard, desk and day on one clock; every day file read by the checker',
		size: `${done.keys} keys, ${done.answers} answers, ${done.days} days, ${done.faces} faces started, ${done.restarts} restarts`,
		verdict: done.says.length === 0 ? 'holds' : 'fails',
	};
}
