import type { Ask, Instruction, View } from '../day/view.ts';
import { asksNumber, timeLeft } from './captions.ts';

/** The one word of each kind of question, for the block letters. */
const words: Record<Exclude<Ask, 'text' | 'do' | 'wait' | 'item'>, string> = {
	pair: 'BOTH',
	level: 'LEVEL',
	number: 'NUMBER',
	pattern: 'PATTERN',
	card: 'CARD',
	horns: 'HORNS',
	gauge: 'GAUGE',
	'pattern-height': 'HEIGHT',
	flooded: 'FLOODED',
	breathing: 'BREATHING',
	can: 'CAN',
	batch: 'BATCH',
	touch: 'TOUCH',
	'last-face': 'HOW MUCH',
	'which-face': 'WHICH FACE',
	'one-go': 'ONE GO',
	go: 'READY',
	spraying: 'SPRAY',
	hold: 'HOLD',
	trouble: 'TROUBLE',
	choose: 'CHOOSE',
	closed: 'CLOSED',
};

/** Words for what has no kind of its own, by the state, the longest that begins it. */
const stateWords: Record<string, string> = {
	'air.no': 'AIR: NO',
	edge: 'EDGE DRY',
	finish: 'CLEAN UP',
	'gunCheck.gauge.unit': 'UNIT?',
	'finish.close': 'CLOSE DAY',
	'hold.air-back': 'AIR?',
	'hold.air-off': 'STAY OUT',
	'hold.air-lost': 'LEAVE',
	'hold.clock': 'CLOCK?',
	'hold.close': 'CLOSE?',
	keys: 'KEYS',
	'list.open': 'NOT DONE',
	missed: 'TOO LATE',
	'mix.begin': 'MIX',
	'mix.cup.off': 'FLOW CUP',
	'mix.rim': 'RIM?',
	'mix.stood': 'STOOD',
	override: 'WHY?',
	'pick.day': 'WHICH?',
	'pick.how': 'HOW?',
	'trouble.gun': 'GUN',
	'trouble.gun.half-turn': 'HALF TURN',
	'trouble.wet': 'WET COAT',
	'trouble.wet.aside': 'ASIDE?',
	'mix.discard': 'DISCARD?',
	'trouble.wet.face': 'WHICH FACE',
};
const ownWord = (state: string): string | undefined => {
	const steps = state.split('.');
	const known = steps.map((_, last) => stateWords[steps.slice(0, steps.length - last).join('.')]);
	return known.find(word => word !== undefined);
};

const plainCode = (code: string) => code.replaceAll('-', ' ');

/** How far is poured stands there, not that it is. */
const level = (to: string, unit: string): string => `${to} ${unit}`;

/** The few instructions whose code alone would not make a good word for the wall. */
const instructionWords: Record<string, (to: string, unit: string) => string> = {
	'set-horns': to => `HORNS ${to}`,
	'set-fan': (to, unit) => `FAN ${to} ${unit}`,
	'set-fluid': to => `FLUID ${to}`,
	'turn-regulator': to => `REGULATOR ${to}`,
	'turn-pattern-knob': to => `KNOB ${to}`,
	'lay-gun': to => (to === 'upright' ? 'GUN UPRIGHT' : `GUN OVER ${to}`),
	'take-gun': to => `GUN ${to}`,
	'change-cup': to => `CUP ${to}`,
	'put-back': to => `PUT BACK ${to}`,
	'put-on': to => plainCode(to),
	'open-pattern-knob': () => 'OPEN KNOB',
	pour: level,
	'fill-cup': level,
};

function instructionWord({ code, to, unit }: Instruction): string {
	const word = instructionWords[code];
	return (word ? word(String(to), unit ?? '') : plainCode(code)).trim().toUpperCase();
}

/**
 * The one critical word of a screen.
 *
 * @param typed what has been typed so far, where something is typed
 */
export function wordOf(view: View, typed: string): string {
	if (asksNumber(view)) return `${typed}_${view.unit ? ` ${view.unit}` : ''}`;
	switch (view.ask) {
		case 'text':
			return `${typed}_`;
		case 'do':
			return view.do.length > 0 ? view.do.map(instructionWord).join(', ') : 'DO';
		case 'wait': {
			const [first] = view.timers;
			return first ? timeLeft(first.left_s).toUpperCase() : 'WAIT';
		}
		case 'item':
			return plainCode(view.state.split('.').at(-1) ?? '').toUpperCase();
		case 'choose':
		case 'trouble':
		case 'hold':
			return ownWord(view.state) ?? words[view.ask];
		default:
			return words[view.ask];
	}
}

/** Instructions whose end says enough where their word has no room: which way to turn. */
const turns = ['set-horns', 'set-fluid', 'lay-gun', 'turn-regulator', 'turn-pattern-knob'];

/** A shorter word that says the same, or the word itself. */
export function shorterWordOf(view: View, typed: string): string {
	const [step, ...others] = view.do;
	if (view.ask !== 'do' || step === undefined) return wordOf(view, typed);
	if (turns.includes(step.code)) return String(step.to).toUpperCase();
	return others.length > 0 ? instructionWord(step) : wordOf(view, typed);
}
