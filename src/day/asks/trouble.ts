import { inert } from '../../job/inert.ts';
import { faceName } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { contextOf, faceBook, faceOf, facesIn, jobOf, laidOn, type Moment } from '../moment.ts';
import { back, type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { untoldPrompt } from './accounting.ts';
import { flushLines } from './flushing.ts';
import { mayLeave, setAside } from './set-aside.ts';

/** Trouble, from any state: the breath first, then the wet face, then the gun, then the paint. */

export const inTrouble = (moment: Moment): Option => ({
	...option('trouble', 'TROUBLE', { type: 'break.began', kind: 'trouble', by: 'painter' }),
	next: () => troublePrompt(moment),
});

const wetFaults: [string, string][] = [
	['run', 'RUN'],
	['sag', 'SAG'],
	['fisheye', 'FISHEYE'],
	['blush', 'BLUSH'],
	['orange-peel', 'ORANGE PEEL'],
	['dry-spray', 'DRY SPRAY'],
	['wrinkling', 'WRINKLING'],
	['solvent-pop', 'SOLVENT POP'],
	['spit', 'SPIT'],
	['dust', 'DIRT'],
	['hose', 'HOSE OR SLEEVE'],
	['other', 'SOMETHING ELSE'],
];

/** A fault as it is called on the screen, by what a face was set aside for: reasons in other words are long. */
export const wetFaultWord = (why: string): string => {
	if (why === 'hose') return 'mark';
	return wetFaults.some(([code]) => code === why) && why !== 'other' ? why.replaceAll('-', ' ') : 'fault';
};

/** Source of the remedies: TM 43-0139 pp. 5-11, 5-12 and TO 1-1-8. */
type GunFault = { code: string; text: string; say: string; do: string };
const gunFaults: GunFault[] = [
	{ code: 'spits', text: 'SPITS', say: 'Tip: air off, bleed, wet it, tighten it.', do: 'tighten-tip' },
	{
		code: 'one-sided',
		text: 'ONE SIDE',
		say: 'Air cap: half a turn, burst. Did it turn over?',
		do: 'half-turn',
	},
	{
		code: 'split',
		text: 'SPLIT',
		say: 'Air and fluid: less fan, or more fluid. Burst again.',
		do: 'balance',
	},
	{
		code: 'heavy-middle',
		text: 'HEAVY MIDDLE',
		say: 'Fan: open it, or less fluid. Burst again.',
		do: 'open-fan',
	},
	{ code: 'drips', text: 'DRIPS', say: 'Cup: stop the drip, wipe it, check its lid.', do: 'wipe-cup' },
	{ code: 'clogged', text: 'CLOGGED', say: 'Gun: air off and bled, then flush it.', do: 'flush' },
];

const gunFaultSeen = (fault: string, remedy: string): DayEvent[] => [
	{ type: 'fault.seen', fault, gun: true, remedy },
	{ type: 'gun.unknown', why: 'gun-fault' },
];

/** A flushed gun is an empty one. */
const flushed = ({ state }: Moment, remedy: string): DayEvent[] =>
	remedy === 'flush' && state.machine.context.cup.length > 0
		? [{ type: 'cup.emptied', volume_mL: state.book.cup_mL, why: 'flushed' }]
		: [];

const gunPrompt = (moment: Moment): Prompt => ({
	state: 'trouble.gun',
	ask: 'trouble',
	say: 'Gun: what does the pattern on paper do?',
	options: gunFaults.map(fault => opens(fault.code, fault.text, () => remedyPrompt(moment, fault))),
});

function remedyPrompt(moment: Moment, chosen: GunFault): Prompt {
	if (chosen.code === 'one-sided')
		return {
			state: 'trouble.gun.half-turn',
			ask: 'choose',
			say: chosen.say,
			lines: ['Turned over: the cap. Stayed: the fluid tip.', 'Air off and bled before the cap comes off.'],
			do: [{ code: 'half-turn', to: 'half a turn' }],
			options: [
				option('turned-over', 'TURNED OVER', ...gunFaultSeen('one-sided', 'cleaned the cap')),
				option('stayed', 'STAYED', ...gunFaultSeen('one-sided', 'cleaned the tip')),
			],
		};
	return {
		state: `trouble.gun.${chosen.code}`,
		ask: 'do',
		say: chosen.say,
		lines: chosen.do === 'flush' ? [...flushLines] : ['Air off and bled before the cap comes off.'],
		do: [{ code: chosen.do, to: 'done' }],
		options: [option('done', 'DONE', ...flushed(moment, chosen.do), ...gunFaultSeen(chosen.code, chosen.do))],
	};
}

/** The faces that trouble can be about, the likeliest first: the one broken off, then those sprayed, the last of them first; any, where none has paint. */
function sprayedFaces(moment: Moment): string[] {
	const begun = [...facesIn(moment, 'broken'), ...facesIn(moment, 'part')];
	const ended = (id: string) => faceBook(moment, id).laid.at(-1)?.ended.wall ?? 0;
	const laid = jobOf(moment)
		.faces.map(({ id }) => id)
		.filter(id => laidOn(moment, id) > 0 && !begun.includes(id));
	const painted = [...begun, ...laid.sort((one, other) => ended(other) - ended(one))];
	return painted.length > 0 ? painted : jobOf(moment).faces.map(({ id }) => id);
}

function faultEvents(
	moment: Moment,
	fault: string,
	face: string,
	aside: 'part' | 'face' | 'none',
): DayEvent[] {
	const isBegun = facesIn(moment, 'broken', 'part').includes(face);
	const coat = Math.max(1, laidOn(moment, face) + (isBegun ? 1 : 0));
	const seen: DayEvent = { type: 'fault.seen', fault, face, coat };
	if (aside === 'none') return [seen];
	const faces = aside === 'part' ? mayLeave(moment, face) : [face];
	return [seen, ...setAside(moment, face, fault, faces)];
}

const wetPrompt = (moment: Moment): Prompt => ({
	state: 'trouble.wet',
	ask: 'trouble',
	say: 'Wet coat: leave it wet. What do you see?',
	options: wetFaults.map(([code, text]) => opens(code, text, () => wetFacePrompt(moment, code))),
});

function wetFacePrompt(moment: Moment, fault: string): Prompt {
	return {
		state: 'trouble.wet.face',
		ask: 'choose',
		say: 'Wet coat: on which face?',
		options: sprayedFaces(moment).map(id =>
			opens(id, faceName(id).toUpperCase(), () => asidePrompt(moment, fault, id)),
		),
	};
}

function asidePrompt(moment: Moment, fault: string, face: string): Prompt {
	const part = inert(faceOf(moment, face).part);
	const leaving = mayLeave(moment, face);
	const asides: Option[] = [
		option('set-part-aside', 'SET PART ASIDE', ...faultEvents(moment, fault, face, 'part')),
		option('set-face-aside', 'ONLY THIS FACE', ...faultEvents(moment, fault, face, 'face')),
	];
	const may = [leaving.length > 0, leaving.includes(face)];
	return {
		state: 'trouble.wet.aside',
		ask: 'choose',
		say: about(part, `leave the ${wetFaultWord(fault)}, wick off what drips, sand later.`),
		lines: ['Set aside, it leaves the coming coats; the others go on.'],
		face,
		options: [
			...asides.filter((_, index) => may[index]),
			option('keep-on', 'LEAVE IT, CARRY ON', ...faultEvents(moment, fault, face, 'none')),
		],
	};
}

function paintPrompt(moment: Moment): Prompt {
	return {
		state: 'trouble.paint',
		ask: 'do',
		say: 'Cup: empty. The next cup is asked for.',
		do: [{ code: 'empty-cup', to: 'empty' }],
		options: [
			contextOf(moment).cup.length > 0
				? option('done', 'CUP IS EMPTY', { type: 'cup.emptied', volume_mL: 0, why: 'ran out', read: true })
				: back('done', 'GO ON'),
		],
	};
}

/** What happened: the air before all else. */
export const troublePrompt = (moment: Moment): Prompt => ({
	state: 'trouble',
	ask: 'trouble',
	say: 'Trouble: what happened?',
	options: [
		option('air-lost', 'BREATHING AIR OFF', { type: 'break.began', kind: 'air-lost', by: 'painter' }),
		opens('wet-fault', 'RUN, DIRT, TOUCHED', () => untoldPrompt(moment) ?? wetPrompt(moment)),
		opens('gun-fault', 'GUN FAULT', () => gunPrompt(moment)),
		opens('out-of-paint', 'OUT OF PAINT', () => paintPrompt(moment)),
	],
});
