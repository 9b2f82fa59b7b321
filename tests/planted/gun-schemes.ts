import type { Line } from '../../src/day/rehearsal.ts';
import type { World } from '../../src/painter/world.ts';
import { given } from './habits.ts';
import type { Bench } from './hidden.ts';
import type { Plan, Scheme } from './schemes.ts';

/** Causes that lie in the gun or the air, from one pass on, until somebody looks or they end by themselves. */

type Fault = {
	/** What is wrong from then on, and what is right again. */
	set(bench: Bench): void;
	unset(bench: Bench): void;
	/** Whether a look at this screen would tell. */
	tells(line: Line): boolean;
	/** What the painter sees there: changes what he believes, or says what he keys. */
	sees(world: World): readonly string[] | null;
	/** What is keyed by habit, somewhere between; null: as it should be. */
	habit?(line: Line, world: World): readonly string[] | null;
	/** What is keyed once at *ready*, where it is seen at the gun itself. */
	shows?: readonly string[];
	/** A step that puts it right without a look. */
	mends?(line: Line): boolean;
};

const sets = (line: Line, code: string) => line.ask === 'do' && line.do.some(one => one.code === code);

const fan: Fault = {
	set: bench => {
		bench.horns = 'turned';
	},
	unset: bench => {
		bench.horns = 'as told';
	},
	tells: ({ ask }) => ask === 'pattern' || ask === 'horns',
	sees: world => {
		world.horns = world.horns === 'level' ? 'upright' : 'level';
		return null;
	},
	mends: line => sets(line, 'set-horns'),
};

const pattern: Fault = {
	set: bench => {
		bench.pattern = 'one-sided';
	},
	unset: bench => {
		bench.pattern = 'even';
	},
	tells: ({ ask }) => ask === 'pattern' || ask === 'flooded',
	sees: () => ['bad', 'one-sided'],
	mends: line => sets(line, 'clean-cap') || sets(line, 'half-turn'),
};

/** @param times the true pressure, of the one wanted */
const pressure = ({ lots }: Plan, times: number): Fault => ({
	set: bench => {
		bench.pressure = times;
	},
	unset: bench => {
		bench.pressure = 1;
	},
	tells: ({ ask }) => ask === 'gauge',
	sees: world => {
		world.pressure_kPa = Math.round(world.pressure_kPa * times);
		return null;
	},
	/** Within a tenth of what is wanted it passes. */
	habit: ({ face, coat }, world) =>
		lots.is(given.anchors, 'anchors', face ?? '', coat ?? 0)
			? [
					`number ${Math.round(world.pressure_kPa * (1 + Math.max(-0.09, Math.min(0.09, (times - 1) * 0.3))))}`,
				]
			: null,
});

/** Oil and water in the line are seen at no screen; the line is drained before another batch, perhaps. */
const airLine = ({ lots }: Plan): Fault => ({
	set: bench => {
		bench.airLine = 'foul';
	},
	unset: bench => {
		bench.airLine = 'dry';
	},
	tells: () => false,
	sees: () => null,
	shows: ['trouble', 'gun-fault', 'spits', 'done'],
	mends: ({ state, at }) => state === 'mix.stir' && lots.is(0.5, 'drained', at),
});

function faultOf(plan: Plan): Fault | null {
	const { lots, cause } = plan;
	const isLow = cause.form === 'low';
	switch (cause.code) {
		case 'fan-along-stroke':
			return fan;
		case 'bad-pattern':
			return pattern;
		case 'pressure-off':
			return pressure(plan, isLow ? lots.between(0.6, 0.83, 'bar') : lots.between(1.2, 1.5, 'bar'));
		case 'air-line':
			return airLine(plan);
		default:
			return null;
	}
}

const shows = (line: Line, code: string) => Object.values(line.corners).some(corner => corner.code === code);

export function gunScheme(plan: Plan): Scheme | null {
	const fault = faultOf(plan);
	if (!fault) return null;
	const { lots, count } = plan;
	const where = lots.below(count, 'where');
	let isOn = false;
	const saysSo = lots.is(given.saysSo, 'says');
	let looks = 0;
	let isShown = false;
	return {
		begins(pass, bench) {
			if (pass.nth !== where) return;
			isOn = true;
			fault.set(bench);
		},
		keys(line, { bench, believed }) {
			if (!isOn) return null;
			if (fault.shows && saysSo && !isShown && line.state === 'ready') {
				isShown = true;
				return fault.shows;
			}
			const over = () => {
				isOn = false;
				fault.unset(bench);
			};
			if (fault.mends?.(line)) over();
			if (!isOn || !fault.tells(line)) return null;
			const drawn = lots.at('looks', looks++);
			if (drawn < given.looks) {
				const codes = fault.sees(believed);
				over();
				return codes?.filter(code => shows(line, code)).slice(0, 1) ?? null;
			}
			if (drawn < given.looks + given.mendsFirst) {
				over();
				return null;
			}
			return fault.habit?.(line, believed) ?? null;
		},
	};
}
