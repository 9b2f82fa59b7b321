import type { Ask, Instruction, Timer, View } from '../day/view.ts';

/** The one word of each kind of question, for the block letters. */
const words: Record<Exclude<Ask, 'text' | 'do' | 'wait'>, string> = {
	number: 'NUMBER',
	item: 'CHECK',
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

const plainCode = (code: string) => code.replaceAll('-', ' ');

/** The few instructions whose code alone would not make a good word for the wall. */
const instructionWords: Record<string, (to: string, unit: string) => string> = {
	'set-horns': to => `HORNS ${to}`,
	'set-fan': (to, unit) => `FAN ${to} ${unit}`,
	'turn-regulator': to => `REGULATOR ${to}`,
	'turn-pattern-knob': to => `KNOB ${to}`,
	'change-cup': to => `CUP ${to}`,
	'put-back': to => `PUT BACK ${to}`,
	'put-on': to => plainCode(to),
	'open-pattern-knob': () => 'OPEN KNOB',
};

function instructionWord({ code, to, unit }: Instruction): string {
	const word = instructionWords[code];
	return (word ? word(String(to), unit ?? '') : plainCode(code)).trim().toUpperCase();
}

/**
 * Time left as a painter reads it from afar: minutes while there is time, minutes and seconds near the end.
 *
 * @param seconds time left; below zero it is over by so much
 */
export function timeLeft(seconds: number): string {
	if (seconds < 0) return `over by ${timeLeft(-seconds)}`;
	if (seconds >= 3600) {
		const minutes = Math.ceil(seconds / 60);
		return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`;
	}
	if (seconds >= 600) return `${Math.ceil(seconds / 60)} min`;
	const whole = Math.ceil(seconds);
	return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** What each timer counts down to. */
const timerWords: Record<string, string> = {
	flash: 'Flash ends',
	window: 'Window closes',
	touch: 'Touch again',
	stand: 'Batch has stood',
	rework: 'Rework',
	settle: 'Ready',
	'pot-life': 'Pot life ends',
	'wet-tip': 'Wet the tip',
	flush: 'Flush the gun',
};

/** One timer as a short line. */
export function timerLine(timer: Timer): string {
	const what = timerWords[timer.code] ?? plainCode(timer.code);
	return `${timer.face ? `${what}, ${timer.face}` : what}: ${timeLeft(timer.left_s)}`;
}

/** A number is to be typed, whatever it is read from. */
export const asksNumber = (view: View): boolean => view.ask === 'number' || view.step !== undefined;

/**
 * The timers to be shown beside the word, the soonest first: none while a face is being sprayed.
 * On a wait the first is the word itself.
 */
export function timersShown(view: View): Timer[] {
	if (view.ask === 'spraying' || view.ask === 'closed') return [];
	const rest = view.ask === 'wait' ? view.timers.slice(1) : view.timers;
	return [...rest].sort((one, other) => one.left_s - other.left_s);
}

/**
 * The one critical word of a screen.
 *
 * @param typed what has been typed so far, where something is typed
 */
export function wordOf(view: View, typed: string): string {
	if (view.state.startsWith('keys.')) return 'KEYS';
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
		default:
			return words[view.ask];
	}
}

/** How words are typed where the space bar is hold. */
export const typingLines = (view: View): string[] =>
	view.ask === 'text' ? ['_ parts words, Enter keeps it.'] : [];

/** Ways to lay a face's name over lines. */
export function nameWays(face: string): string[][] {
	const [part = '', ...rest] = face.split('/');
	return rest.length > 0 ? [[face], [part, rest.join('/')]] : [[face]];
}

/** The line that says where the painter is in the day; a rehearsal is said first and never cut. */
export function statusParts(view: View, notice: string | null): string[] {
	const rehearsal = view.rehearsal ? ['REHEARSAL'] : [];
	if (notice !== null) return [...rehearsal, notice];
	const counted = view.coats === null ? `coat ${view.coat}` : `coat ${view.coat} of ${view.coats}`;
	return [
		...rehearsal,
		...(view.ask === 'wait' ? ['WAIT'] : []),
		...(view.face === null ? [] : [view.face]),
		...(view.coat === null ? [] : [counted]),
		...(view.cup && view.cup.length > 0 ? [`cup ${view.cup.join(' + ')}`] : []),
		...(view.open.length > 0 ? [`open: ${view.open.length}`] : []),
	];
}
