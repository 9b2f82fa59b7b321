import type { Line } from '../../src/day/rehearsal.ts';
import type { Cause } from './causes.ts';
import { given } from './habits.ts';
import type { Pot } from './hidden.ts';
import type { Floor, Plan, Scheme } from './schemes.ts';

/** Causes that are mixed into a pot: every pass from it has them. */

/** What of a pot another cause is; null: it is none of mixing. */
function spoils({ cause, lots }: Plan): ((pot: Pot) => void) | null {
	const { code, form } = cause;
	if (code === 'no-hardener')
		return pot => {
			pot.hardener = 0;
		};
	if (code === 'wrong-ratio')
		return pot => {
			const short = lots.between(0.45, 0.8, 'short');
			const over = lots.between(1.35, 1.9, 'over');
			if (form.startsWith('hardener')) pot.hardener = form === 'hardener short' ? short : over;
			else pot.reducer = form === 'reducer short' ? Math.min(short, 0.7) : over;
		};
	if (code === 'wrong-can')
		return pot => {
			pot.wrongCan = form === 'reducer' ? 'reducer' : 'hardener';
		};
	if (code === 'viscosity-off')
		return pot => {
			pot.seconds = form === 'thick' ? lots.between(1.2, 1.6, 'runs') : lots.between(0.55, 0.8, 'runs');
		};
	if (code === 'not-stood')
		return pot => {
			pot.stood = false;
		};
	if (code === 'dirt-in-paint')
		return pot => {
			pot.strained = false;
		};
	return null;
}

/** Seconds that the sheet of the newest batch wants. */
function wanted_s({ state }: Floor, { job }: Plan): [number, number] | null {
	const material = [...state.book.batches.values()].at(-1)?.material ?? '';
	return job.materials[material]?.cup?.seconds ?? null;
}

/** Another mark than the right one is read first, and keyed; some of it is in the pot by then. */
function otherMark(line: Line, { state, mixing }: Floor): readonly string[] | null {
	const material = [...state.book.batches.values()].at(-1)?.material;
	const right = state.book.opened.cans.find(
		can => can.material === material && can.component === mixing?.component,
	)?.mark;
	const marks = new Set(state.book.opened.cans.map(({ mark }) => mark));
	const wrong = Object.values(line.corners).find(({ code }) => code !== right && marks.has(code))?.code;
	return wrong === undefined ? null : [wrong];
}

/** The cup read as it runs, and used all the same; or read by habit, at the edge or in the middle. */
function cupKeys(plan: Plan, saysSo: boolean) {
	const isThick = plan.cause.form === 'thick' || plan.cause.form === 'reducer short';
	return (line: Line, floor: Floor): readonly string[] | null => {
		if (line.state === 'mix.cup.off' && saysSo) return ['use-as-is', 'test-piece'];
		const range = line.of === 'seconds' ? wanted_s(floor, plan) : null;
		if (!range) return null;
		const [low, high] = range;
		if (saysSo) return [`number ${isThick ? Math.round(high * 1.25) : Math.round(low * 0.75)}`];
		const isNear = plan.lots.is(given.anchors, 'anchors', 'cup');
		return isNear ? [`number ${isThick ? high : low}`] : null;
	};
}

/** The step of mixing that a cause slips in at. */
const stepOf: Partial<Record<Cause['code'], string>> = {
	'no-hardener': 'mix.can',
	'wrong-ratio': 'mix.can',
	'wrong-can': 'mix.can',
	'not-stood': 'mix.stood',
	'dirt-in-paint': 'mix.strain',
};

/** Paint with little hardener or none flashes off late: its tab pulls strings once more. No source for how often. */
function softTab(
	{ cause, lots }: Plan,
	line: Line,
	{ passes }: Floor,
	felt: Set<number>,
): readonly string[] | null {
	const isSoft = cause.code === 'no-hardener' || cause.form === 'hardener short';
	const coat = (line.coat ?? 0) - 1;
	const under = passes.find(pass => pass.face === line.face && pass.coat === coat);
	const isHere = under?.pots.some(({ hardener }) => hardener < 0.9);
	if (!isSoft || !isHere || line.state !== 'touch' || felt.has(coat)) return null;
	felt.add(coat);
	return lots.is(given.saysSo, 'tab', coat) ? ['strings'] : null;
}

export function batchScheme(plan: Plan): Scheme | null {
	const spoil = spoils(plan);
	if (!spoil) return null;
	const { lots, cause } = plan;
	const which = lots.below(3, 'batch');
	const saysSo = lots.is(given.saysSo, 'says');
	const atCup = cupKeys(plan, saysSo);
	/** Too much reducer or too little runs another time out of the cup. */
	const isThinned = cause.code === 'wrong-ratio' && cause.form.startsWith('reducer');
	let isSaid = false;
	/** Where a call comes while it is mixed: what interrupts a sequence makes errors in it likelier (Altmann, Trafton & Hambrick 2014). */
	const calledAt = lots.is(given.called, 'called') ? stepOf[cause.code] : undefined;
	let isCalled = false;
	const felt = new Set<number>();
	return {
		batch(pot, nth) {
			if (nth === which) spoil(pot);
		},
		keys(line, floor) {
			const isDirty = cause.code === 'dirt-in-paint' && saysSo && !isSaid;
			if (isDirty && line.state === 'ready' && floor.passes.at(-1)?.pots.some(({ strained }) => !strained)) {
				isSaid = true;
				return ['trouble', 'gun-fault', 'spits', 'done'];
			}
			const tab = softTab(plan, line, floor, felt);
			if (tab) return tab;
			if (floor.mixing?.nth !== which) return null;
			if (calledAt && !isCalled && line.state.startsWith(calledAt)) {
				isCalled = true;
				return ['hold', `wait ${1 + lots.below(10, 'away')} min`, 'back'];
			}
			if (cause.code === 'viscosity-off' || isThinned) return atCup(line, floor);
			if (cause.code !== 'wrong-can' || !saysSo || isSaid || line.ask !== 'can') return null;
			if (floor.mixing.component !== cause.form) return null;
			isSaid = true;
			return otherMark(line, floor);
		},
	};
}
