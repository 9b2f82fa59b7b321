import { withGunOf } from '../job/job.ts';
import { type DayPlan, planDay } from '../plan/day-plan.ts';
import { orderFor } from '../plan/order.ts';
import { type Progress, replan } from '../plan/replan.ts';
import { clock } from '../words/clock.ts';
import { mostWords } from '../words/spoken.ts';
import { lifeLeft_s, potsOf } from './allowed.ts';
import { contextOf, facesIn, jobOf, laidOn, type Moment, nextCoat } from './moment.ts';
import { pending } from './order.ts';

/** The rest of the day planned again, and in one sentence what that changed. */

/** Seconds of the plan at which the clock stands: its first pass lies where the first face of the stage began. */
function zeroOf(moment: Moment, stage: number, plan: DayPlan): number | null {
	const ends = jobOf(moment).faces.flatMap(({ id, coats }) => {
		const laid = moment.state.book.faces.get(id)?.laid ?? [];
		const first = laid.find(({ coat }) => coats[coat - 1]?.stage === stage);
		return first ? [first.ended.wall] : [];
	});
	const [first] = plan.laid;
	return ends.length > 0 && first ? Math.min(...ends) / 1000 - first.to_s : null;
}

function progressOf(moment: Moment, zero_s: number, face: string): Progress {
	const { book } = moment.state;
	const { cup } = contextOf(moment);
	const now_s = moment.now.wall / 1000 - zero_s;
	const faces = jobOf(moment).faces.map(({ id }) => id);
	const life = Math.min(...cup.map(letter => lifeLeft_s(moment, letter)));
	const [letter] = cup;
	return {
		on: Object.fromEntries(faces.map(id => [id, laidOn(moment, id)])),
		ends: Object.fromEntries(
			faces.flatMap(id => {
				const last = book.faces.get(id)?.laid.at(-1);
				return last ? [[id, last.ended.wall / 1000 - zero_s]] : [];
			}),
		),
		aside: facesIn(moment, 'aside', 'beside'),
		at_s: now_s,
		gun: null,
		cup: letter !== undefined && life > 0 ? { letter, left_mL: book.cup_mL, dies_s: now_s + life } : null,
		pots: potsOf(moment, nextCoat(moment, face)).map(letter => ({
			...{
				letter,
				left_mL: book.batches.get(letter)?.pot_mL ?? 0,
				dies_s: now_s + lifeLeft_s(moment, letter),
			},
		})),
		letters: book.lettersBefore + book.batches.size,
	};
}

const fits = (text: string): boolean => text.split(' ').length <= mostWords;

/** As many of the sentence's parts, the gravest first, as can be listened to, and when the day ends, where there is room. */
function brief(changed: string, ends: string): string {
	const parts = changed.replace(/\.$/, '').split('; ');
	while (parts.length > 1 && !fits(parts.join('; '))) parts.pop();
	const said = `${parts.join('; ')}.`;
	return fits(`${said} ${ends}`) ? `${said} ${ends}` : said;
}

/**
 * What a break has changed of the day, in one sentence; null where nothing is changed, nothing was sprayed yet,
 * or the plan cannot tell.
 */
export function changedBy(moment: Moment): string | null {
	const [next] = pending(moment);
	const held = moment.state.book.break;
	if (!next || !held) return null;
	const { stage } = nextCoat(moment, next.face);
	const job = withGunOf(jobOf(moment), stage);
	const options = { rates: moment.state.book.opened.rates ?? {} };
	try {
		const old = planDay(job, orderFor(job, stage), options);
		const zero_s = zeroOf(moment, stage, old);
		if (zero_s === null) return null;
		const before = replan(
			job,
			old,
			progressOf({ ...moment, now: held.since }, zero_s, next.face),
			options,
		).plan;
		const { changed, plan } = replan(job, before, progressOf(moment, zero_s, next.face), options);
		const ends = clock((plan.end_s + zero_s) * 1000, moment.state.book.opened.zone);
		return changed === 'Nothing changed.' ? null : brief(changed, `Finished about ${ends}.`);
	} catch (error) {
		if (error instanceof RangeError) return null;
		throw error;
	}
}
