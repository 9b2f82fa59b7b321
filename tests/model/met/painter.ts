import { newLedger } from './ledger.ts';
import type { Place, Rehearsals, Seen } from './rehearsal.ts';
import { type Face, faces, type Horns, morning } from './truth.ts';

/**
 * A painter at a rehearsal: does as told, reads what is there, and answers by what is asked and by the codes
 * of the corners, never by where a corner stands nor by a sentence.
 */

const keys: Record<Place, string> = {
	topLeft: 'top-left',
	topRight: 'top-right',
	bottomLeft: 'bottom-left',
	bottomRight: 'bottom-right',
};

/** Answers of list items that leave nothing open. */
const inOrder = [
	...['flows', 'clean', 'nothing', 'clipped', 'covered', 'there', 'known', 'unlike'],
	...['done', 'clear', 'shut', 'running'],
];
/** Where there is a choice, what carries the day on. */
const goOn = ['mix', 'go-on-mixing', 'ask-again', 'wait-flash', 'clean-up'];
/** The marks taped on the two cans, in the order in which they are poured. */
const cans = ['ring', 'cross'];
/** What lies at least between the first screen after a break and the next pass. */
const settling_s = 10;
const shapes: Record<Horns, string> = { level: 'tall', upright: 'wide' };
/** What the instruments show at the bench and in the spray area. */
const instruments: Record<string, number> = {
	...{ airC: 21, humidity: 50, surfaceC: 21, seconds: 22, tempC: 21, left: 5 },
	...{ gauge: 200, 'pattern-height': 200 },
};

const faceOf = (name: string | null): Face => {
	const face = faces.find(one => one === name);
	if (!face) throw new Error(`no face of the sheet: ${name}`);
	return face;
};

export type Painter = ReturnType<typeof newPainter>;

/**
 * @param rehearsal where the day is played
 * @param first its first screen
 */
export function newPainter(rehearsal: Rehearsals, first: Seen) {
	let seen = first;
	const said: { line: string; code?: string; seen: Seen }[] = [];
	const ledger = newLedger();
	const hands = {
		horns: morning.horns,
		told: morning.told,
		/** How many letters have been taped on pots. */
		letters: 0,
		/** The letters taped on the cup at the gun. */
		cup: [] as string[],
		pot_mL: 0,
		/** How many of the two cans have been poured from. */
		poured: 0,
	};
	/** Time that has truly gone by: until each face was last sprayed, the pot was whole, the painter came back. */
	const clock = {
		elapsed_s: 0,
		sprayed_s: new Map<Face, number>(),
		whole_s: 0,
		back_s: Number.NEGATIVE_INFINITY,
	};

	function look(next: Seen) {
		if (next.ask === 'wait' && !next.timers.some(({ code }) => code === 'settle')) ledger.broke();
		if (next.ask === 'go' || (next.ask === 'spraying' && seen.ask !== 'spraying')) {
			const against = ledger.against(faceOf(next.face), hands.cup);
			if (clock.elapsed_s < clock.back_s + settling_s)
				against.push(`the break ended under ${settling_s} s ago`);
			if (against.length) throw new Error(`${next.ask} is asked, but ${against.join('; ')}`);
		}
		seen = next;
	}

	async function say(line: string, code?: string) {
		const next = await rehearsal.say(line);
		said.push({ line, ...(code && { code }), seen: next });
		if (!next.accepted) throw new Error(`refused: ${line}: ${next.reason?.text}`);
		look(next);
	}

	async function press(code: string) {
		const place = cornerOf(code);
		if (!place) throw new Error(`no corner says ${code}: ${codes().join(', ')}`);
		if (code === 'back') clock.back_s = clock.elapsed_s;
		await say(keys[place], code);
	}

	/** Of a pair the first answer tells it. */
	const cornerOf = (code: string) => {
		const places = ['topLeft', 'topRight', 'bottomLeft', 'bottomRight'] as const;
		const exact = places.find(one => seen.corners[one]?.code === code);
		return exact ?? places.find(one => seen.ask === 'pair' && seen.corners[one]?.code.startsWith(`${code}+`));
	};
	const codes = () => Object.values(seen.corners).map(one => one?.code ?? '');
	const offers = (code: string) => cornerOf(code) !== undefined;

	async function pressOne(wanted: readonly string[]) {
		const code = wanted.find(offers);
		if (!code) throw new Error(`${seen.ask}: none of ${codes().join(', ')} is known to be right`);
		await press(code);
	}

	/** Lets time go by: the clock that is moved, or the machine suspended. */
	async function pass(seconds: number, how: 'wait' | 'sleep' = 'wait') {
		clock.elapsed_s += seconds;
		await say(`${how} ${seconds} s`);
	}

	/** Does what stands on the screen; horns that were said to be turned are not turned again. */
	function follow() {
		for (const { code, to } of seen.do) {
			if (code === 'set-horns' && hands.told !== to) {
				hands.horns = to === 'level' ? 'level' : 'upright';
				hands.told = hands.horns;
			}
			if (code === 'pour') {
				hands.pot_mL = Number(to);
				hands.poured += 1;
			}
			if (code === 'fill-cup') {
				hands.cup = [...new Set([...hands.cup, letter()])];
				ledger.broke();
			}
			if (code === 'empty-cup') {
				hands.cup = [];
				ledger.broke();
			}
		}
	}

	/** The letter on the pot: one is never used again. */
	const letter = () => 'ABCDEFGH'.charAt(hands.letters - 1);

	/** A pot is begun: the next letter is taped on it. */
	function beginPot() {
		hands.letters += 1;
		hands.pot_mL = 0;
		hands.poured = 0;
	}

	async function readLevel() {
		if (hands.poured >= cans.length) {
			ledger.hardener(letter());
			clock.whole_s = clock.elapsed_s;
		}
		await say(`number ${hands.pot_mL}`);
	}

	async function readInstrument(name: string) {
		const shown = instruments[name];
		if (shown === undefined) throw new Error(`no instrument shows ${name}`);
		await say(`number ${shown}`);
	}

	/** Answers truly what is asked now. */
	async function answer() {
		const { ask, of = '' } = seen;
		if (ask === 'do') {
			follow();
			return press('done');
		}
		if (ask === 'item' || (ask === 'pair' && !offers('supplied-air'))) return pressOne(inOrder);
		if (ask === 'number' || ask === 'level') return of === 'level_mL' ? readLevel() : readInstrument(of);
		if (ask === 'can') return press(cans[hands.poured] ?? 'ring');
		if (ask === 'choose') {
			if (offers('mix')) beginPot();
			return pressOne(goOn);
		}
		return read(ask);
	}

	/** Takes a reading of the gun check, or of the tab. */
	async function read(ask: string) {
		if (ask === 'breathing' || ask === 'pair') {
			ledger.read('breathing');
			return press('supplied-air');
		}
		if (ask === 'batch') {
			ledger.read(ask);
			return press(hands.cup.join('+'));
		}
		if (ask === 'pattern') {
			ledger.read(`pattern ${shapes[hands.horns]}`);
			return press(shapes[hands.horns]);
		}
		if (ask === 'touch') return press('tacky');
		ledger.read(ask);
		if (ask === 'horns') return press(hands.horns);
		if (ask === 'flooded') return press('even');
		return readInstrument(ask);
	}

	/** Answers truly as long as one of these is asked. */
	async function answerWhile(...asks: string[]) {
		for (let times = 0; asks.includes(seen.ask); times++) {
			if (times > 60) throw new Error(`${seen.ask} is asked without end`);
			await answer();
		}
	}

	return {
		hands,
		clock,
		ledger,
		/** The lines said so far, each with what it was answered. */
		said,
		seen: () => seen,
		codes,
		offers,
		/** Says a line that may be refused. */
		knock: (line: string) => rehearsal.say(line),
		say,
		press,
		pressOne,
		pass,
		answer,
		answerWhile,
		beginPot,
		sprayed(face: string | null) {
			ledger.sprayed(faceOf(face));
			clock.sprayed_s.set(faceOf(face), clock.elapsed_s);
		},
		/** How long after the spraying of this face it now is. */
		since_s: (face: Face) => clock.elapsed_s - (clock.sprayed_s.get(face) ?? Number.NEGATIVE_INFINITY),
	};
}
