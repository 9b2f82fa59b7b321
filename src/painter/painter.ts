import type { Line } from '../day/rehearsal.ts';
import type { DayState } from '../day/state.ts';
import type { Corner } from '../day/view.ts';
import { fanFor_mm, gunCalled, gunFor, type Job } from '../job/job.ts';
import { lossesOf } from '../job/on-work.ts';
import { paintLimits_C } from '../trade/air.ts';
import { paintOff } from '../trade/cup.ts';
import { cardCount, cardOf, coveredBy } from '../trade/pattern-cards.ts';
import { inUnit, type Quantity } from '../trade/quantity.ts';
import { patternOf, type World, worldOf } from './world.ts';

/** A painter who reads what is there and does what is said: the hands of the demo, and of days played by tests. */
export type Painter = {
	world: World;
	/** The next line of input for a screen; null where nothing is left to do. */
	answer(line: Line): string | null;
};

const lineOf: Record<Corner, string> = {
	topLeft: 'top-left',
	topRight: 'top-right',
	bottomLeft: 'bottom-left',
	bottomRight: 'bottom-right',
};

/** The corner that shows a code, turning the page where there are more. */
export function keyFor(line: Line, code: string): string {
	const found = Object.entries(line.corners).find(([, choice]) => choice.code === code);
	const more = Object.entries(line.corners).find(([, choice]) => choice.code === 'more');
	const corner = (found ?? more)?.[0] as Corner | undefined;
	if (!corner) throw new Error(`no corner says ${code} in ${line.state}: ${JSON.stringify(line.corners)}`);
	return lineOf[corner];
}

const symbolOf: Record<string, string> = {
	'°C': '°C',
	'°F': '°F',
	'%': '%',
	kPa: 'kPa',
	psi: 'psi',
	bar: 'bar',
	mm: 'mm',
	in: 'in',
};
const entered = (value: number, kind: Quantity, unit: string | null): string =>
	`number ${Number(inUnit(value, kind, symbolOf[unit ?? ''] ?? unit ?? '').toFixed(3))}`;

const shows = (line: Line, code: string) => Object.values(line.corners).some(corner => corner.code === code);

/** A painter of a job; `state` lets it see what a person sees on the bench: which can is which, and the gun's times. */
export function painterOf(job: Job, state: () => DayState): Painter {
	const world = worldOf(job);
	const faceIn = (line: Line) => job.faces.find(({ id }) => id === line.face);
	const coatIn = (line: Line) => faceIn(line)?.coats[(line.coat ?? 0) - 1];
	const gunIn = (line: Line) => {
		const coat = coatIn(line);
		return coat ? gunFor(job, coat) : job.gun;
	};
	/** Another gun hangs on the line, at the pressure that was told for it; its cap stands as it was put away. */
	const takeUp = (name: string) => {
		if (world.gun === name) return;
		const { called = '', pressure_kPa, fanHeight_mm } = gunCalled(job, name);
		Object.assign(world, { gun: called, pressure_kPa, fanHeight_mm, horns: 'level' });
	};
	let target = 0;
	let moving = false;

	const carryOut = (line: Line) => {
		for (const { code, to } of line.do) {
			const face = faceIn(line);
			if (code === 'set-horns' && (to === 'level' || to === 'upright')) world.horns = to;
			if ((code === 'set-fan' || code === 'turn-pattern-knob') && face)
				world.fanHeight_mm = fanFor_mm(face, coatIn(line) ?? {});
			if (code === 'turn-regulator') world.pressure_kPa = gunIn(line).pressure_kPa;
			if (code === 'take-gun') takeUp(String(to));
			if (code === 'clean-cap' && world.horns === 'between') world.horns = 'level';
			if (code === 'put-on') world.breathing = 'supplied-air';
			if (code === 'pour') target = Number(to);
			if (code === 'fill-cup' || code === 'change-cup') world.cup = told(line) ?? tape();
			const [gun] = line.lines.flatMap(said => /^Gun (.*): its cup/.exec(said)?.[1] ?? []);
			if (code === 'fill-cup' && gun !== undefined) takeUp(gun);
			if (code === 'empty-cup') world.cup = '';
		}
	};
	/** The letters that the screen says are taped on the cup: those of two pots. */
	const told = ({ lines }: Line): string | undefined =>
		lines.map(text => /^Tape (\S+\+\S+) on the cup/.exec(text)?.[1]).find(letters => letters !== undefined);
	/** The tape that a careful painter puts on the cup names every batch that is in it. */
	const tape = () => {
		const { cup, batches } = state().machine.context;
		const loading = state().machine.value === 'bench' || state().machine.value === 'ready';
		const ready = Object.entries(batches).filter(
			([, batch]) => batch.matches('ready') || batch.matches('inCup'),
		);
		const filling = ready.find(([letter]) => (state().book.batches.get(letter)?.pot_mL ?? 0) > 0.5)?.[0];
		const letters = loading && filling && !cup.includes(filling) ? [...cup, filling] : [...cup];
		return letters.join('+');
	};

	const canMark = ({ lines }: Line) => {
		const [which] = lines.flatMap(said => /: the (.*) one\.$/.exec(said)?.[1] ?? []);
		const { batches } = state().machine.context;
		const [letter, batch] = Object.entries(batches).at(-1) ?? [];
		const component = batch?.context.todo[0];
		const material = letter === undefined ? undefined : state().book.batches.get(letter)?.material;
		const its = state().book.opened.cans.find(
			can =>
				can.material === material &&
				can.component === component &&
				(can.name === undefined || can.name === which),
		);
		return its?.mark ?? '';
	};

	const number = (line: Line): string => {
		const { of, unit } = line;
		if (line.ask === 'gauge') return entered(world.pressure_kPa, 'pressure', unit);
		if (line.ask === 'pattern-height') return entered(world.fanHeight_mm, 'length', unit);
		switch (of) {
			case 'airC':
				return entered(world.air.C, 'temperature', unit);
			case 'surfaceC':
				return entered(world.air.surface_C, 'temperature', unit);
			case 'humidity':
				return entered(world.air.humidity, 'share', unit);
			case 'tempC':
				return entered(paint_C(), 'temperature', unit);
			case 'seconds':
				return `number ${cupSeconds()}`;
			case 'stroke':
				return 'number 2';
			case 'reached':
				return `number ${line.max ?? 0}`;
			case 'volume':
				return entered(job.gun.cup_mL, 'volume', unit);
			case 'left':
				return entered(rest_mL(), 'volume', unit);
			case 'card':
				world.card = (world.card % cardCount) + 1;
				return `number ${world.card}`;
			default:
				return `number ${line.state === 'mix.found' ? world.pot : pour()}`;
		}
	};
	const pour = () => {
		world.pot = target;
		return target;
	};
	const cupSeconds = () => {
		const material = [...state().book.batches.values()].at(-1)?.material;
		const seconds = material === undefined ? undefined : job.materials[material]?.cup?.seconds;
		return seconds ? (seconds[0] + seconds[1]) / 2 : 20;
	};

	/** All is as it should be: the answer that the list lets pass; where no list asks, the first one. */
	const seenTo = ({ state: step, corners }: Line): string => {
		const [list, item] = step
			.replace(/^list\./, '')
			.replace(/^gunCheck\./, 'gun-check.')
			.split('.');
		const asked = state()
			.book.opened.lists.find(one => one.list === list)
			?.items.find(one => one.code === item);
		return asked?.answers?.find(({ passes }) => passes === 'yes')?.code ?? corners.topLeft?.code ?? '';
	};

	/** Both as they are; else the answer that has each asked by itself. */
	const bothOf = ({ state: step, corners }: Line): string => {
		const codes = Object.values(corners).map(({ code }) => code);
		const isGear = step.endsWith('.mask');
		const seen = codes.filter(
			code => code.includes('+') && (!isGear || code.startsWith(`${world.breathing}+`)),
		);
		return seen[0] ?? codes.find(code => !code.includes('+')) ?? '';
	};

	const answer = (line: Line): string | null => {
		const key = (code: string) => keyFor(line, code);
		if (line.ask !== 'spraying') moving = false;
		switch (line.ask) {
			case 'closed':
				return null;
			case 'pair':
				return key(bothOf(line));
			case 'breathing':
				return key(world.breathing);
			case 'can':
				return key(canMark(line));
			case 'number':
				if (line.state.startsWith('mix.level') && !line.accepted) return key('discard');
				return number(line);
			case 'level': {
				const reached = String(pour());
				return shows(line, reached) ? key(reached) : `number ${reached}`;
			}
			case 'gauge':
			case 'pattern-height':
				return number(line);
			case 'pattern': {
				const face = faceIn(line);
				return key(face ? patternOf(world, face) : 'bad');
			}
			case 'card': {
				const held = cardOf(world.card);
				const face = faceIn(line);
				const shape = face ? patternOf(world, face) : 'bad';
				return key(held && shape !== 'bad' ? coveredBy(held)[shape] : 'bad');
			}
			case 'horns':
				return key(world.horns);
			case 'flooded':
				return key('even');
			case 'batch':
				return shows(line, world.cup) ? key(world.cup) : lineOf.topLeft;
			case 'touch':
				return key(line.state === 'touch.turning' ? 'dry' : world.tab);
			case 'do':
				carryOut(line);
				return key('done');
			case 'go':
				return key('start');
			case 'spraying':
				moving = !moving;
				return moving ? `wait ${spraySeconds()} s` : key('finished');
			case 'wait':
				return `wait ${Math.max(1, line.timers[0]?.left_s ?? 1)} s`;
			case 'hold':
				return key('back');
			case 'text':
				return 'text seen to';
			case 'last-face':
				return key('part');
			case 'one-go':
				return key('yes');
			case 'item':
				return key(line.state === 'gunCheck.gun' ? world.gun : seenTo(line));
			case 'choose':
				if (line.state === 'mix.cup.off') bringToTemperature();
				return key((line.corners.topLeft ?? line.corners.topRight)?.code ?? '');
			default:
				return key((line.corners.topLeft ?? line.corners.topRight)?.code ?? '');
		}
	};
	const paint_C = () => world.paint_C ?? world.air.C;
	/** Paint that is too cold or too warm for its cup stands until it is not. */
	const bringToTemperature = () => {
		const paint = job.materials[[...state().book.batches.values()].at(-1)?.material ?? ''];
		if (!paint?.cup) return;
		const limits_C = paintLimits_C(paint.limits);
		const off = paintOff(paint.cup, limits_C, { seconds: paint.cup.seconds[0], tempC: paint_C() });
		if (off !== null) world.paint_C = paint.cup.at_C ?? (limits_C[0] + limits_C[1]) / 2;
	};
	/** What pours off: the rest by the count, less what stays in the gun. */
	const rest_mL = () => {
		const { cup_mL, cupGun } = state().book;
		return Math.max(0, cup_mL - lossesOf(gunCalled(job, cupGun)).gun_mL);
	};
	const spraySeconds = () => {
		const { stretch, faces } = state().book;
		return Math.round(stretch.reduce((sum, id) => sum + (faces.get(id)?.pass?.spray_s ?? 0), 0));
	};
	return { world, answer };
}
