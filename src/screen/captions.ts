import type { Ask, Instruction, Timer, View } from '../day/view.ts';

/** The one word of each kind of question, for the block letters. */
const words: Record<Exclude<Ask, 'number' | 'text' | 'do' | 'wait'>, string> = {
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

const things: Record<string, string> = {
	'set-horns': 'HORNS',
	'set-pressure': 'GAUGE',
	'set-fan': 'FAN',
	'set-fan-height': 'FAN',
	'set-fluid': 'FLUID',
};

const plainCode = (code: string) => code.replaceAll('-', ' ');

function instructionWord({ code, to, unit }: Instruction): string {
	const thing = things[code] ?? plainCode(code).toUpperCase();
	return `${thing} ${String(to).toUpperCase()}${unit ? ` ${unit}` : ''}`;
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

/** One timer as a short line. */
export function timerLine(timer: Timer): string {
	const what = timer.face ? `${plainCode(timer.code)}, ${timer.face}` : plainCode(timer.code);
	return `${what}: ${timeLeft(timer.left_s)}`;
}

/**
 * The one critical word of a screen.
 *
 * @param typed what has been typed so far, where something is typed
 */
export function wordOf(view: View, typed: string): string {
	switch (view.ask) {
		case 'number':
			return `${typed}_${view.unit ? ` ${view.unit}` : ''}`;
		case 'text':
			return `${typed}_`;
		case 'do': {
			const [first, second] = view.do;
			return first && !second ? instructionWord(first) : 'DO';
		}
		case 'wait': {
			const [first] = view.timers;
			return first ? timeLeft(first.left_s).toUpperCase() : 'WAIT';
		}
		default:
			return words[view.ask];
	}
}

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
