import type { Job } from '../../src/job/job.ts';
import { patternOf, type World, worldOf } from '../../src/painter/world.ts';
import { inUnit } from '../../src/trade/quantity.ts';
import type { Seen } from './eyes.ts';

/** What a painter does about a screen: a word in a corner is struck, a number typed, the clock moved, or waited. */
export type Deed =
	| { strike: string; after_s?: number }
	| { type: number }
	| { hold: true }
	/** The rehearsal's clock goes on by whole minutes. */
	| { clock_min: number }
	/** Nothing is struck: time goes by. */
	| { watch_s: number }
	| { leave: true };

/** What was asked, in a word; and what is done about it, or null where that is for whoever brought it about to say. */
export type Reply = { asked: string; deed: Deed | null };

/** A painter who has the job sheet, the bench and the gun, and else only what the screen says. */
export type EyePainter = {
	world: World;
	/** Letters on the cup's tape, the oldest first. */
	cup: string[];
	/** Null where the screen says nothing to do. */
	reply(seen: Seen): Reply | null;
};

type Rule = [
	asks: RegExp,
	asked: string | ((seen: Seen) => string),
	deed: (found: RegExpExecArray, seen: Seen) => Deed | null,
];

const strike = (word: string): Deed => ({ strike: word });

/**
 * A painter of a job.
 *
 * @param pass_s how long a pass is drawn out, where the sheet's own time is not kept
 * @param canMove the clock is a rehearsal's, and may be moved by a key
 */
export function eyePainter(job: Job, pass_s: (wanted: number) => number, canMove = true): EyePainter {
	const world = worldOf(job);
	const cup: string[] = [];
	const cans = new Map<string, string>();
	let pot = '';
	let level = 0;
	let spray_s = 0;
	let left = 0;
	let material = '';

	const us = job.units === 'us';
	const temperature = (C: number) => Number(inUnit(C, 'temperature', us ? '°F' : '°C').toFixed(1));
	const seconds = () => {
		const named = Object.values(job.materials).find(({ name }) => material.endsWith(name));
		const [low, high] = named?.cup?.seconds ?? [20, 20];
		return (low + high) / 2;
	};
	/** The face that the line about the day names; the gun is held as for it. */
	const faceOn = ({ status }: Seen) => job.faces.find(({ id }) => status.includes(id));
	const pattern = (seen: Seen) => {
		const face = faceOn(seen);
		return (face ? patternOf(world, face) : 'bad').toUpperCase();
	};
	const adjust = ({ text }: Seen): Deed => {
		const [, horns] = /turn the horns (level|upright)/.exec(text) ?? [];
		if (horns === 'level' || horns === 'upright') world.horns = horns;
		const [, fan] = /set the fan ([\d.]+) (in|mm)/.exec(text) ?? [];
		if (fan) world.fanHeight_mm = Number(fan) * (us ? 25.4 : 1);
		if (/Regulator: turn it/.test(text)) world.pressure_kPa = job.gun.pressure_kPa;
		if (/clean the cap/.test(text) && world.horns === 'between') world.horns = 'level';
		return strike('DONE');
	};
	const gear = () => (world.breathing.split('-')[0] ?? '').toUpperCase();
	const length = () => Number(inUnit(world.fanHeight_mm, 'length', us ? 'in' : 'mm').toFixed(1));
	const pressure = () => Number(inUnit(world.pressure_kPa, 'pressure', us ? 'psi' : 'kPa').toFixed(1));

	/** Time that has to go by, as the screen says it: a few seconds are waited out, for a minute more is another day. */
	const wait = (left: number, unit: string): Deed => {
		if (!canMove || (unit === 's' && left <= 10)) return { watch_s: unit === 's' ? Math.min(left, 2) : 30 };
		return { clock_min: unit === 's' ? 1 : left };
	};
	const yes = (asks: RegExp, asked: string, word: string): Rule => [asks, asked, () => strike(word)];
	const told = (asks: RegExp, asked: string): Rule => [asks, asked, () => null];
	const rules: Rule[] = [
		told(/Trouble: what happened/, 'trouble'),
		told(/how much of coat \d+ is on/, 'how much'),
		told(/leave it wet\. What do you see/, 'wet fault'),
		told(/Wet coat: on which face/, 'on which face'),
		told(/wick off what drips/, 'set aside'),
		[/Day closed\./, 'closed', () => ({ leave: true })],
		[
			/Breathing gear: .*kind is on you/,
			'breathing',
			(_, { corners }) =>
				strike(
					Object.values(corners).find(text => text === `${gear()}, AT MARK`) ??
						world.breathing.replace('-', ' ').toUpperCase(),
				),
		],
		yes(/Supplied air: flow/, 'supply', 'FLOWS AND QUIET'),
		yes(/Extractor.*: gauge/, 'extractor', 'AT CLEAN MARK'),
		yes(/what could spark/i, 'ignition', 'NOTHING, CLIPPED'),
		yes(/Skin: gloves/, 'skin', 'NO GAP'),
		yes(/Fire: sprinkler/, 'fire', 'ALL THERE, KNOWN'),
		yes(/Is any mark like its neighbour/, 'cans', 'ALL DIFFERENT'),
		[/Air near the work: how warm/, 'air', () => ({ type: temperature(world.air.C) })],
		[/Air near the work: what humidity/, 'humidity', () => ({ type: Math.round(world.air.humidity * 100) })],
		[/Surface of the parts: how warm/, 'surface', () => ({ type: temperature(world.air.surface_C) })],
		[/so soon\? How much of coat/, 'soon', () => strike('ALL')],
		[
			/\d+ parts: (wipe|tack)(?: rag)?,/,
			'prep',
			([, what]) => strike(what === 'wipe' ? 'ALL WIPED' : 'ALL TACKED'),
		],
		[/: (wipe|tack)(?: rag)?[,.]/, 'prep', ([, what]) => strike(what === 'wipe' ? 'WIPED' : 'TACKED')],
		[
			/(?:^| )([A-Z][\w ]*): mix [\d.]+/,
			'mix',
			([, name = ''], { text }) => {
				material = name;
				for (const [, component, mark] of text.matchAll(/(base|hardener|reducer) ([a-z]+)(?=[,.])/g))
					if (component && mark) cans.set(component, mark.toUpperCase());
				pot = /Tape the pot ([A-Z]+)\./.exec(text)?.[1] ?? pot;
				return strike('MIX');
			},
		],
		[
			/has stood/,
			'stood',
			(_, { corners }) =>
				strike(['STRAINED', 'STIRRED'].find(did => Object.values(corners).includes(did)) ?? 'GO ON'),
		],
		yes(/Stir the (base|pot)/, 'stir', 'STIRRED'),
		[
			/(Base|Hardener|Reducer): take the can/,
			'can',
			([, what = '']) => strike(cans.get(what.toLowerCase()) ?? ''),
		],
		yes(/wrong can\. Stop/, 'wrong can', 'PUT BACK'),
		[
			/: pour slowly, up to ([\d.]+)/,
			'pour',
			([, to]) => {
				level = Number(to);
				return strike('POURED');
			},
		],
		[/which level does the pot show/, 'level', () => ({ type: level })],
		[/Wait (\d+) (s|min): the batch stands/, 'stand', ([, left, unit = '']) => wait(Number(left), unit)],
		yes(/through the strainer/, 'strain', 'STRAINED'),
		[/Flow cup .*how many seconds/, 'seconds', () => ({ type: seconds() })],
		[/how warm is the paint/, 'paint', () => ({ type: temperature(world.air.C) })],
		[
			/Cup: fill to/,
			'load',
			({ input }) => {
				const named = /pot taped ([A-Z]+)/.exec(input)?.[1] ?? pot;
				if (!cup.includes(named)) cup.push(named);
				return strike('FILLED');
			},
		],
		[
			/Empty, flush\./,
			'empty',
			() => {
				cup.splice(0);
				return strike('EMPTY AND FLUSHED');
			},
		],
		[
			/Air cap: turn|(?:Pattern|Fluid) knob: |Regulator: turn|clean the cap/,
			'set',
			(_, seen) => adjust(seen),
		],
		[/Batch: look at the tape/, 'batch', () => strike(cup.join('+'))],
		[/Gauge: trigger pulled/, 'gauge', () => ({ type: pressure() })],
		[/measure the burst/, 'pattern height', () => ({ type: length() })],
		[/look at the horns/, 'horns', () => strike(world.horns.toUpperCase())],
		yes(/Flooded pattern:/, 'flooded', 'EVEN'),
		[/one short burst on paper/, 'pattern', (_, seen) => strike(pattern(seen))],
		[/Gun: checked\./, 'settling', () => wait(1, 's')],
		[
			/: coat \d+ of \d+\./,
			({ corners }) => (Object.values(corners).includes('AND START') ? 'armed' : 'ready'),
			(_, seen) => {
				const [, time] = /coat, (\d+) s/.exec(seen.text) ?? [];
				spray_s = Number(time ?? spray_s);
				const [, holds, wants] = /Cup ([\d.]+) .*?, wants ([\d.]+)/.exec(seen.text) ?? [];
				left = Math.max(0, Number(holds ?? left) - Number(wants ?? 0));
				return strike(Object.values(seen.corners).includes('AND START') ? 'AND START' : 'START');
			},
		],
		[/Wait (\d+) (s|min)(?:, extractor on)?:/, 'wait', ([, left, unit = '']) => wait(Number(left), unit)],
		yes(/Tape tab of the last coat/, 'touch', 'TACKY'),
		yes(/Held|started again|slept|jumped|closed\. Away/, 'hold', 'GO ON'),
		yes(/Clean up\.|that can go on are on/, 'finish', 'CLEAN UP'),
		[/how much is left/, 'left over', () => ({ type: Number(left.toFixed(2)) })],
		yes(/Gun: empty it\. Run solvent/, 'flush', 'RUNS CLEAR'),
		yes(/Air: shut it, bleed/, 'bled', 'SHUT AND BLED'),
		yes(/Cap, tip, needle/, 'cap', 'HOLES CLEAR'),
		yes(/Left-over mix:/, 'waste', 'OUTSIDE'),
		yes(/Rags, filters:/, 'rags', 'LID SHUT'),
		yes(/wipe the rims/, 'cans shut', 'SHUT AND MARKED'),
		yes(/leave it running/, 'extractor left', 'LEFT RUNNING'),
		yes(/Gloves, overalls:/, 'hands', 'WASHED'),
		yes(/Cleaned up\. Close the day/, 'close', 'CLOSE THE DAY'),
	];

	return {
		world,
		cup,
		reply(seen) {
			if (Object.values(seen.corners).includes('FINISHED'))
				return { asked: 'spraying', deed: { strike: 'FINISHED', after_s: pass_s(spray_s) } };
			for (const [asks, asked, deed] of rules) {
				const found = asks.exec(seen.text);
				if (found) return { asked: typeof asked === 'string' ? asked : asked(seen), deed: deed(found, seen) };
			}
			return null;
		},
	};
}
