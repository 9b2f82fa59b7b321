import { fromUnit, inUnit } from '../../trade/quantity.ts';
import { alongStrokeVerdict } from '../../trade/sag.ts';
import { entryUnit } from '../../trade/shown.ts';
import { faceName, sentence } from '../../words/say.ts';
import { isSettled, settledAt } from '../allowed.ts';
import {
	contextOf,
	faceOf,
	jobOf,
	laidOn,
	type Moment,
	materialOf,
	nextCoat,
	ruleOf,
	settingsOf,
	unitsOf,
} from '../moment.ts';
import { type Option, option, type Prompt, type Reply } from '../prompt.ts';
import type { DayEvent, EventOf, ReadingFeature } from '../records.ts';
import type { Instruction } from '../view.ts';
import { cardPrompt } from './card.ts';
import { letterNumber, letterOf } from './letters.ts';
import { reading } from './reading.ts';

/** The gun check: what is instructed, what is read back, and what is said when the two differ. */

const secondFeatures: readonly ReadingFeature[] = ['horns', 'pattern-height', 'flooded'];

/** What must be done to the gun before a face, going by what was last done to it. */
export function instructionsFor(moment: Moment, face: string): Instruction[] {
	const { gun } = moment.state.book;
	const rule = ruleOf(moment, face);
	const { unit, symbol } = entryUnit('length', unitsOf(moment));
	return [
		...(gun.horns === rule.horns ? [] : [{ code: 'set-horns', to: rule.horns }]),
		...(gun.fanHeight_mm === rule.fanHeight_mm
			? []
			: [{ code: 'set-fan', to: round(inUnit(rule.fanHeight_mm, 'length', symbol)), unit }]),
	];
}

const round = (value: number) => Number(value.toFixed(1));

/** The items of a gun check: the second feature rotates and is never one that has just been instructed. */
export function itemsOf(moment: Moment, face: string, size: 'full' | 'short'): string[] {
	const list = moment.state.book.opened.lists.find(one => one.list === 'gun-check');
	const codes = list?.items.map(({ code }) => code) ?? [];
	const pattern = settingsOf(moment).cards ? 'card' : 'pattern';
	if (size === 'short') return ['batch', pattern];
	const instructed = instructionsFor(moment, face).map(({ code }) => code);
	const open = secondFeatures.filter(
		feature =>
			!(feature === 'horns' && instructed.includes('set-horns')) &&
			!(feature === 'pattern-height' && instructed.includes('set-fan')),
	);
	const second = open[(seedOf(moment) + moment.state.book.fullChecks) % open.length] ?? 'flooded';
	return codes.map(code => (code === 'second' ? second : code === 'pattern' ? pattern : code));
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

const seedOf = ({ state }: Moment) => state.book.opened.seed ?? 0;

const cupLabel = (moment: Moment) => contextOf(moment).cup.join('+');

/** Four letters among which the right one may stand anywhere. */
function lettersAsked(moment: Moment): string[] {
	const { cup, batches } = contextOf(moment);
	const label = cupLabel(moment);
	const newest = Math.max(...Object.keys(batches).map(letterNumber), 1);
	const shift = (seedOf(moment) + moment.state.book.checks) % 4;
	const first = Math.max(1, Math.min(...cup.map(letterNumber)) - shift);
	const near = [0, 1, 2, 3, 4, 5].map(step => letterOf(Math.min(first + step, newest + 5)));
	const others = [...new Set(near)].filter(letter => letter !== label && !cup.includes(letter));
	const asked = cup.length > 1 ? [label, ...cup.slice(0, 2), ...others] : [label, ...others];
	return [...new Set(asked)].slice(0, 4).sort();
}

const choices = (...pairs: [string, string][]) => pairs;
const answersOf: Partial<Record<ReadingFeature, [string, string][]>> = {
	pattern: choices(['tall', 'TALL'], ['wide', 'WIDE'], ['round', 'ROUND'], ['bad', 'BAD']),
	horns: choices(['level', 'LEVEL'], ['upright', 'UPRIGHT'], ['between', 'BETWEEN']),
	flooded: choices(
		['even', 'EVEN'],
		['heavy-ends', 'HEAVY ENDS'],
		['heavy-middle', 'HEAVY MIDDLE'],
		['one-sided', 'ONE SIDE'],
	),
};

const questions: Record<string, string> = {
	pattern: 'Pattern: one short burst on paper. What shape?',
	horns: 'Air cap: look at the horns, gun upright. How?',
	flooded: 'Flooded pattern: fan flat, hold until it runs. Lengths?',
	gauge: 'Gauge: trigger pulled, at the gun. What does it read?',
	'pattern-height': 'Pattern: measure the burst along its length. How long?',
	batch: 'Batch: look at the tape. Which letter?',
};

/** What fits for a reading of the check under way. */
function wantedOf(moment: Moment, item: string): EventOf<'reading.taken'>['wanted'] {
	const face = moment.state.book.check?.face ?? null;
	const rule = face ? ruleOf(moment, face) : null;
	switch (item) {
		case 'mask':
			return rule && materialOf(moment, rule.material).isocyanate
				? 'supplied-air'
				: ['supplied-air', 'filter-mask'];
		case 'batch':
			return cupLabel(moment);
		case 'gauge':
			return jobOf(moment).gun.pressure_kPa;
		case 'pattern-height':
			return rule?.fanHeight_mm ?? null;
		case 'horns':
			return rule?.horns ?? null;
		case 'flooded':
			return 'even';
		default:
			return rule?.pattern ?? null;
	}
}

/** Readings with a scale: a share of the wanted value either way. */
function measured(moment: Moment, feature: 'gauge' | 'pattern-height', value: number): DayEvent {
	const wanted = Number(wantedOf(moment, feature));
	const matched = Math.abs(value - wanted) <= settingsOf(moment).readingTolerance * wanted;
	return reading(moment, feature, value, wanted, { matched });
}

const scales = {
	gauge: { kind: 'pressure', min: 0, max: 700 },
	'pattern-height': { kind: 'length', min: 0, max: 600 },
} as const;

function numberAsked(moment: Moment, feature: 'gauge' | 'pattern-height'): NonNullable<Prompt['number']> {
	const { kind, min, max } = scales[feature];
	const { unit, symbol, step } = entryUnit(kind, unitsOf(moment));
	return {
		of: feature === 'gauge' ? 'pressure' : 'height',
		unit,
		min: Math.floor(inUnit(min, kind, symbol)),
		max: Math.ceil(inUnit(max, kind, symbol)),
		step,
		reply: value => ({ events: [measured(moment, feature, fromUnit(value, kind, symbol))] }),
	};
}

const shown = (value: unknown): string =>
	Array.isArray(value) ? value.map(shown).join(' or ') : String(value).replaceAll('-', ' ').toUpperCase();

/** By how much the wrong fan would have ruined this face. */
function consequence(moment: Moment, face: string): string {
	const { gun } = jobOf(moment);
	const { material } = nextCoat(moment, face);
	const { times, runs, floods } = alongStrokeVerdict({
		width_mm: gun.fanHeight_mm,
		depth_mm: gun.fanDepth_mm,
		beta1: gun.beta[0],
		beta2: gun.beta[1],
		flow_mL_per_min: gun.flow_mL_per_min,
		transfer: gun.transfer,
		speed_mm_per_s: gun.speed_mm_per_s,
		sag_um: materialOf(moment, material).sag_um,
		attitude: faceOf(moment, face).attitude,
	});
	const end = runs ? 'it runs' : floods ? 'it floods' : 'it stripes';
	return `This would have laid about ${Math.round(times)} times the film on one line: ${end}.`;
}

/** What to do about a reading that differs: by another feature than the one read. */
function remedy(moment: Moment, differed: EventOf<'reading.taken'>): { do: Instruction[]; lines: string[] } {
	const face = moment.state.book.check?.face ?? null;
	const { feature, value, wanted } = differed;
	const both = `Read ${shown(value)}. Wanted ${shown(wanted)}.`;
	const higher = typeof value === 'number' && value < Number(wanted);
	switch (feature) {
		case 'pattern':
		case 'card':
		case 'horns': {
			if (value === 'round') return { do: [{ code: 'open-pattern-knob', to: 'open' }], lines: [both] };
			if (value === 'bad' && feature === 'card')
				return {
					do: [
						{ code: 'open-pattern-knob', to: 'open' },
						{ code: 'clean-cap', to: 'clean' },
					],
					lines: [`Read none of the arms. Wanted ${shown(wanted)}.`, 'Then the cap: air off, clean it.'],
				};
			if (value === 'bad') return { do: [{ code: 'clean-cap', to: 'clean' }], lines: [both] };
			const to = face ? ruleOf(moment, face).horns : 'level';
			const lines = face && feature !== 'horns' ? [both, consequence(moment, face)] : [both];
			return { do: [{ code: 'set-horns', to }], lines };
		}
		case 'gauge': {
			const { unit, symbol } = entryUnit('pressure', unitsOf(moment));
			const say = (kPa: unknown) => `${round(inUnit(Number(kPa), 'pressure', symbol))} ${unit}`;
			return {
				do: [{ code: 'turn-regulator', to: higher ? 'up' : 'down' }],
				lines: [`Read ${say(value)}. Wanted ${say(wanted)}.`],
			};
		}
		case 'pattern-height': {
			const { unit, symbol } = entryUnit('length', unitsOf(moment));
			const say = (mm: unknown) => `${round(inUnit(Number(mm), 'length', symbol))} ${unit}`;
			return {
				do: [{ code: 'turn-pattern-knob', to: higher ? 'open' : 'closed' }],
				lines: [`Read ${say(value)}. Wanted ${say(wanted)}.`],
			};
		}
		case 'flooded':
			return { do: [{ code: 'clean-cap', to: 'clean' }], lines: [both] };
		case 'batch':
			return { do: [{ code: 'change-cup', to: String(wanted) }], lines: [both] };
		default:
			return {
				do: [{ code: 'put-on', to: Array.isArray(wanted) ? 'supplied-air' : String(wanted) }],
				lines: [both],
			};
	}
}

/** The record that an instruction was carried out. */
const gunSet = (instructions: readonly Instruction[], moment: Moment, face: string | null): DayEvent => {
	const has = (code: string) => instructions.some(one => one.code === code);
	const rule = face ? ruleOf(moment, face) : null;
	return {
		type: 'gun.set',
		horns: has('set-horns') ? (rule?.horns ?? null) : null,
		pressure_kPa: null,
		fanHeight_mm: has('set-fan') ? (rule?.fanHeight_mm ?? null) : null,
		fluid: null,
	};
};

const instructionWords: Record<string, (to: string | number, unit?: string) => string> = {
	'set-horns': to => `Air cap: turn the horns ${to}.`,
	'set-fan': (to, unit) => `Pattern knob: set the fan ${to} ${unit ?? ''} long.`,
	'open-pattern-knob': () => 'Pattern knob: open it.',
	'turn-pattern-knob': to => `Pattern knob: turn it ${to === 'open' ? 'open' : 'in'} a little.`,
	'turn-regulator': to => `Regulator: turn it ${to}, trigger pulled.`,
	'clean-cap': () => 'Air off, line bled: clean the cap and its holes.',
	'change-cup': to => `Cup: hang the one taped ${to}.`,
	'put-on': () => 'Breathing gear: put on supplied air, and stay out.',
};

const wordsFor = (instructions: readonly Instruction[]) =>
	instructions.map(({ code, to, unit }) => instructionWords[code]?.(to, unit) ?? `${code} ${to}`);

function fixPrompt(moment: Moment, differed: EventOf<'reading.taken'>): Prompt {
	const face = moment.state.book.check?.face ?? null;
	const { do: steps, lines } = remedy(moment, differed);
	const done = gunSet(steps, moment, face);
	const wrongCup: Option[] =
		differed.feature === 'batch'
			? [
					option(
						'empty-cup',
						'EMPTY THE CUP',
						{ type: 'break.began', kind: 'trouble', by: 'painter' },
						{ type: 'cup.emptied', volume_mL: moment.state.book.cup_mL, why: 'wrong batch' },
					),
				]
			: [];
	return {
		state: `gunCheck.${differed.feature}.differs`,
		ask: 'do',
		say: wordsFor(steps)[0] ?? 'Put it right.',
		lines,
		do: steps,
		options: [option('done', 'DONE', done), ...wrongCup],
	};
}

/** A question of the list file, for the items that the shop words itself. */
function itemPrompt(moment: Moment, code: string): Prompt | null {
	const { book } = moment.state;
	const { check } = book;
	const list = book.opened.lists.find(({ list: name }) => name === check?.list);
	const item = list?.items.find(one => one.code === code);
	if (!check || !item?.answers) return null;
	const isocyanate = contextOf(moment).check?.context.isocyanate === true;
	const answer = (given: string, passed: boolean): Reply => {
		const answered: DayEvent = {
			type: 'item.answered',
			check: check.no,
			list: check.list,
			item: code,
			answer: given,
			passed,
		};
		if (code !== 'mask') return { events: [answered], ...(!passed && { ui: { menu: ['open', code] } }) };
		const wanted = isocyanate ? 'supplied-air' : ['supplied-air', 'filter-mask'];
		return {
			events: [reading(moment, 'breathing', given, wanted), answered],
			...(!passed &&
				check.list !== 'gun-check' && { ui: { notice: 'Supplied air only for this material.' } }),
		};
	};
	return {
		state: `${check.list === 'gun-check' ? 'gunCheck' : `list.${check.list}`}.${code}`,
		ask: code === 'mask' ? 'breathing' : 'item',
		say: item.say,
		lines: item.why ? [item.why] : [],
		options: item.answers.map(({ code: given, text, passes }) => ({
			code: given,
			text,
			reply: () => answer(given, passes === 'yes' || (passes === 'unless-isocyanate' && !isocyanate)),
		})),
	};
}

/** An item answered as open: it is done after all, or passed over with a reason that is logged. */
function openItem(moment: Moment, code: string): Prompt {
	const { book } = moment.state;
	const item = book.opened.lists
		.find(({ list }) => list === book.check?.list)
		?.items.find(one => one.code === code);
	const over = (reason: string): DayEvent => ({
		type: 'override.given',
		rule: code,
		reason,
		face: null,
		coat: null,
	});
	const reasons: Option[] = item?.overridable
		? [
				option('not-needed', 'NOT NEEDED HERE', over('not needed here')),
				option('checked-otherwise', 'SEEN TO OTHERWISE', over('seen to otherwise')),
			]
		: [];
	return {
		state: `list.open.${code}`,
		ask: 'choose',
		say: sentence(`${code.replaceAll('-', ' ')}: still open. The list stays here.`),
		options: [{ code: 'ask-again', text: 'ASK AGAIN', reply: () => ({ ui: { menu: [] } }) }, ...reasons],
		...(item?.overridable && { text: (reason: string) => ({ events: [over(reason)] }) }),
	};
}

/** The screen of a list or a gun check. */
export function checkPrompt(moment: Moment, menu: readonly string[]): Prompt {
	const { check: machine } = contextOf(moment);
	const { check } = moment.state.book;
	if (!machine || !check) throw new Error('no list is being gone through');
	const item = machine.context.items[machine.context.at];
	const face = check.face;
	const on = { face, coat: face ? laidOn(moment, face) + 1 : null };
	if (item === undefined) return settling(moment);
	if (menu[0] === 'open' && menu[1] === item) return { ...openItem(moment, item), ...on };
	if (check.list === 'gun-check' && check.differed) return fixPrompt(moment, check.differed);
	const first = face && check.list === 'gun-check' ? instructionsFor(moment, face) : [];
	if (first.length > 0)
		return {
			state: 'gunCheck.set',
			ask: 'do',
			say: wordsFor(first)[0] ?? '',
			lines: wordsFor(first).slice(1),
			do: first,
			options: [option('done', 'DONE', gunSet(first, moment, face))],
		};
	const worded = itemPrompt(moment, item);
	if (worded) return worded;
	const state = `gunCheck.${item}`;
	const say = questions[item] ?? sentence(item);
	const lines = face ? [`For ${faceName(face)}, gun held as for that face.`] : [];
	if (item === 'card' && face) return cardPrompt(moment, face, menu);
	if (item === 'gauge' || item === 'pattern-height')
		return { state, ask: item, say, lines, number: numberAsked(moment, item) };
	const feature = item as ReadingFeature;
	const answers: [string, string][] =
		item === 'batch' ? lettersAsked(moment).map(letter => [letter, letter]) : (answersOf[feature] ?? []);
	return {
		state,
		ask: item === 'batch' ? 'batch' : (feature as Prompt['ask']),
		say,
		lines,
		options: answers.map(([code, text]) =>
			option(code, text, reading(moment, feature, code, wantedOf(moment, item))),
		),
	};
}

/** Every reading is in, but the painter has not been back long enough. */
const settling = (moment: Moment): Prompt => ({
	state: 'gunCheck.settling',
	ask: 'wait',
	say: isSettled(moment) ? 'Gun: checked.' : 'Gun: checked. A breath before the next pass.',
	lines: [`${Math.ceil((settledAt(moment) - moment.now.wall) / 1000)} s`],
});
