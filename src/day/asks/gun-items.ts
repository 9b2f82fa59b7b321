import { gunNames } from '../../job/job.ts';
import { secondFeature } from '../../plan/second-feature.ts';
import { flowFor_mL_per_min, fluidOf, turnsFluid } from '../fluid.ts';
import { gunSetFor } from '../guns.ts';
import {
	contextOf,
	faceBook,
	faceOf,
	jobOf,
	laidOn,
	lastSprayed,
	type Moment,
	ruleOf,
	settingsOf,
	unitsOf,
} from '../moment.ts';
import type { DayEvent, EventOf } from '../records.ts';
import type { Instruction } from '../view.ts';
import { keyed } from './keyed.ts';

/** What a gun check asks for, and what is done to the gun before it. */

/** What must be done to the gun before a face, going by what was last done to it. */
export function instructionsFor(moment: Moment, face: string): Instruction[] {
	const gun = gunSetFor(moment, face);
	const rule = ruleOf(moment, face);
	return [
		...(gun.horns === rule.horns ? [] : [{ code: 'set-horns', to: rule.horns }]),
		...(gun.fanHeight_mm === rule.fanHeight_mm
			? []
			: [{ code: 'set-fan', ...keyed(rule.fanHeight_mm, 'length', unitsOf(moment)) }]),
		...(turnsFluid(moment, face)
			? [{ code: 'set-fluid', ...keyed(flowFor_mL_per_min(moment, face), 'flow', unitsOf(moment)) }]
			: []),
	];
}

/** The items of a gun check: which of several guns it is comes first; its second feature by turns. */
export function itemsOf(moment: Moment, face: string, size: 'full' | 'short'): string[] {
	const list = moment.state.book.opened.lists.find(one => one.list === 'gun-check');
	const codes = list?.items.map(({ code }) => code) ?? [];
	const pattern = settingsOf(moment).cards ? 'card' : 'pattern';
	if (size === 'short') return ['batch', pattern];
	const instructed = instructionsFor(moment, face).map(({ code }) => code);
	const second = secondFeature(moment.state.book.secondAsked ?? seedOf(moment), {
		turnsHorns: instructed.includes('set-horns'),
		setsFan: instructed.includes('set-fan'),
		isWide: ruleOf(moment, face).pattern === 'wide',
	});
	const items = codes.flatMap(code =>
		code === 'second' ? (second ?? []) : code === 'pattern' ? pattern : code,
	);
	return gunNames(jobOf(moment)).length > 0 ? ['gun', ...items] : items;
}

/** The check that a face needs now. */
export function beginCheck(moment: Moment, face: string, size: 'full' | 'short'): EventOf<'check.began'> {
	return {
		type: 'check.began',
		check: moment.state.book.checks + 1,
		list: 'gun-check',
		size,
		items: itemsOf(moment, face, size),
		face,
		coat: laidOn(moment, face) + 1,
	};
}

export const seedOf = ({ state }: Moment) => state.book.opened.seed ?? 0;

export const cupLabel = (moment: Moment) => contextOf(moment).cup.join('+');

/** The record that an instruction was carried out. */
export const gunSet = (
	instructions: readonly Instruction[],
	moment: Moment,
	face: string | null,
): DayEvent => {
	const has = (code: string) => instructions.some(one => one.code === code);
	const rule = face ? ruleOf(moment, face) : null;
	return {
		type: 'gun.set',
		horns: has('set-horns') ? (rule?.horns ?? null) : null,
		pressure_kPa: null,
		fanHeight_mm: has('set-fan') ? (rule?.fanHeight_mm ?? null) : null,
		fluid: has('set-fluid') && face ? fluidOf(flowFor_mL_per_min(moment, face)) : null,
	};
};

const instructionWords: Record<string, (to: string | number, unit?: string) => string> = {
	'set-horns': to => `Air cap: turn the horns ${to}.`,
	'set-fan': (to, unit) => `Pattern knob: set the fan ${to} ${unit ?? ''} long.`,
	'set-fluid': (to, unit) => `Fluid knob: set ${to} ${unit ?? ''}.`,
	'open-pattern-knob': () => 'Pattern knob: open it.',
	'turn-pattern-knob': to => `Pattern knob: turn it ${to === 'open' ? 'open' : 'in'} a little.`,
	'turn-regulator': to => `Regulator: turn it ${to}, trigger pulled.`,
	'lay-gun': to => (to === 'upright' ? 'Hold the gun upright again.' : `Lay the gun over to the ${to}.`),
	'clean-cap': () => 'Air off, line bled: clean the cap and its holes.',
	'less-air': () => 'Heavy ends: a little less air, or more paint.',
	'more-air': () => 'Heavy middle: a little more air, or thinner paint.',
	'half-turn': () => 'Air cap: clean it, turn it half round, flood again.',
	'take-gun': to => `Gun: take up the one taped ${to}.`,
	'change-cup': to => `Cup: fit the one taped ${to}.`,
	'put-on': () => 'Breathing gear: put on supplied air, and stay out.',
};

/** How far over the wrist held the gun last, in degrees: for the pass since the check, else for the check. */
function heldLast(moment: Moment): number {
	const { checked } = moment.state.book;
	const last = lastSprayed(moment);
	const ended = last && faceBook(moment, last.face).laid.at(-1)?.ended.wall;
	return last && (ended ?? 0) >= (checked?.at.wall ?? 0)
		? faceOf(moment, last.face).tilt
		: (checked?.tilt ?? 0);
}

/** How the wrist holds the gun for a face, where that is not upright or not as it was. */
export function layFor(moment: Moment, face: string): Instruction[] {
	const { tilt } = faceOf(moment, face);
	if (tilt !== 0) return [{ code: 'lay-gun', to: tilt > 0 ? 'left' : 'right' }];
	return heldLast(moment) === 0 ? [] : [{ code: 'lay-gun', to: 'upright' }];
}

export const wordsFor = (instructions: readonly Instruction[]) =>
	instructions.map(({ code, to, unit }) => instructionWords[code]?.(to, unit) ?? `${code} ${to}`);
