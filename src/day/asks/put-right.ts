import { turnedFan } from '../../job/turned-fan.ts';
import { gunNext } from '../guns.ts';
import { contextOf, faceOf, jobOf, type Moment, nextCoat, ruleOf, unitsOf } from '../moment.ts';
import { instructed, type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent, EventOf } from '../records.ts';
import type { Instruction } from '../view.ts';
import { doubtsWrist } from '../wrist.ts';
import { pressureShown } from './gauge.ts';
import { gunSet, layFor, wordsFor } from './gun-items.ts';
import { asKeyed } from './keyed.ts';

/** A reading that differs: both are shown, what to do, then a fresh one. */

export const shown = (value: unknown): string =>
	Array.isArray(value) ? value.map(shown).join(' or ') : String(value).replaceAll('-', ' ').toUpperCase();

/** Shares of a face as they are told. */
const partSaid = (share: number): string =>
	share > 0.6 ? 'Most' : share > 0.4 ? 'Half' : share > 0.28 ? 'A third' : 'A part';

/** By how much the wrong fan would have ruined this face. */
function consequence(moment: Moment, face: string): string[] {
	const turned = turnedFan(jobOf(moment), faceOf(moment, face), nextCoat(moment, face));
	if (!turned) return [];
	const { times, strokes, bare, runs, floods } = turned;
	const end = runs ? 'it runs' : floods ? 'it floods' : 'it stripes';
	const film = `about ${times < 2 ? times.toFixed(1) : Math.round(times)} times the film on ${strokes === 1 ? 'one line' : `${strokes} lines`}`;
	const gap = bare >= 0.05 ? ` ${partSaid(bare)} of the face stays bare.` : '';
	return [`That lays ${film}: ${end}.${gap}`];
}

/** What to do about a flooded pattern that is not even, by where it is heavy: common practice, no source. */
function unevenRemedy(value: string, both: string): { do: Instruction[]; lines: string[] } {
	if (value === 'heavy-ends')
		return {
			do: [{ code: 'less-air', to: 'less' }],
			lines: [both, 'Regulator down a little, pattern knob in, or fluid knob open.'],
		};
	if (value === 'heavy-middle')
		return {
			do: [{ code: 'more-air', to: 'more' }],
			lines: [both, 'Regulator up a little, or pattern knob open.', 'Reducer only as the data sheet allows.'],
		};
	return {
		do: [{ code: 'half-turn', to: 'half a turn' }],
		lines: [
			both,
			'Heavy side turns over: the cap. It stays: the fluid tip.',
			'Air off and bled before the cap comes off.',
		],
	};
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
			if (!face || feature === 'horns') {
				const to = face ? ruleOf(moment, face).horns : 'level';
				return { do: [{ code: 'set-horns', to }], lines: [both] };
			}
			const lay = layFor(moment, face);
			const ruins = consequence(moment, face);
			if (doubtsWrist(jobOf(moment), differed)) return { do: lay, lines: [both, ...ruins] };
			const to = ruleOf(moment, face).horns;
			return { do: [{ code: 'set-horns', to }], lines: [both, ...wordsFor(lay), ...ruins] };
		}
		case 'gauge': {
			const gun = face ? gunNext(moment, face) : jobOf(moment).gun;
			const say = (kPa: unknown) => pressureShown(moment, gun, Number(kPa));
			return {
				do: [{ code: 'turn-regulator', to: higher ? 'up' : 'down' }],
				lines: [`Read ${say(value)}. Wanted ${say(wanted)}.`],
			};
		}
		case 'pattern-height': {
			const say = (mm: unknown) => asKeyed(Number(mm), 'length', unitsOf(moment));
			return {
				do: [{ code: 'turn-pattern-knob', to: higher ? 'open' : 'closed' }],
				lines: [`Read ${say(value)}. Wanted ${say(wanted)}.`],
			};
		}
		case 'flooded':
			return unevenRemedy(String(value), both);
		case 'gun':
			return { do: [{ code: 'take-gun', to: String(wanted) }], lines: [both] };
		case 'batch':
			return { do: [{ code: 'change-cup', to: String(wanted) }], lines: [both] };
		default:
			return {
				do: [{ code: 'put-on', to: Array.isArray(wanted) ? 'supplied-air' : String(wanted) }],
				lines: [both],
			};
	}
}

/**
 * A cup that is not the one it was taken for: what goes is what is in it, of the batch read on it and as much as it is.
 * Of the batch that it was taken for is asked.
 */
function emptied(moment: Moment, read: string): Option {
	const { cup, batches } = contextOf(moment);
	const [first, ...others] = cup;
	const thrown = (more: { kept?: string } = {}): [DayEvent, DayEvent] => [
		{ type: 'break.began', kind: 'trouble', by: 'painter' },
		{
			...{ type: 'cup.emptied', why: 'wrong batch' },
			...(read in batches && { batch: read }),
			...more,
		},
	];
	if (first === undefined || others.length > 0 || moment.state.book.cup_mL <= 0)
		return option('empty-cup', 'EMPTY THE CUP', ...thrown());
	return opens('empty-cup', 'EMPTY THE CUP', () => ({
		state: 'gunCheck.batch.emptied',
		ask: 'choose',
		say: `Batch ${first}: still there, in its pot or another cup?`,
		lines: ['Only what is in this cup is thrown away.'],
		options: [
			// In the corner of EMPTY THE CUP stands what counts no paint: struck twice, none is told of.
			option('not-there', 'NOT THERE', ...thrown()),
			option('still-there', 'STILL THERE', ...thrown({ kept: first })),
		],
	}));
}

export function fixPrompt(moment: Moment, differed: EventOf<'reading.taken'>): Prompt {
	const face = moment.state.book.check?.face ?? null;
	const { do: steps, lines } = remedy(moment, differed);
	const done = gunSet(steps, moment, face);
	const wrongCup = differed.feature === 'batch' ? [emptied(moment, String(differed.value))] : [];
	return {
		state: `gunCheck.${differed.feature}.differs`,
		ask: 'do',
		say: wordsFor(steps)[0] ?? 'Put it right.',
		lines,
		do: steps,
		options: [instructed(done), ...wrongCup],
	};
}
