import { placeAt } from './ask.ts';
import { activityOf, type Moment } from './moment.ts';
import { freshUi, type Place, type Reply, type Ui } from './prompt.ts';
import type { DayEvent } from './records.ts';
import type { Answer, Corner } from './view.ts';
import { cornersOf } from './view-of.ts';

export type Refusal = { code: string; text: string };
export type Decision = { events: DayEvent[]; ui: Ui } | { refused: Refusal };

const refuse = (code: string, text: string): Decision => ({ refused: { code, text } });

function replied(ui: Ui, place: Place, answer: string | number, reply: Reply): Decision {
	if ('page' in reply) return { events: [], ui: { ...ui, page: reply.page } };
	const events = 'events' in reply ? reply.events : [];
	const notice = 'notice' in reply ? reply.notice() : null;
	return { events, ui: { ...freshUi, path: pathAfter(place, answer, reply), notice } };
}

function pathAfter({ path, home, states }: Place, answer: string | number, reply: Reply): Ui['path'] {
	if ('again' in reply) return path.slice(0, Math.max(0, states.indexOf(reply.again)));
	if ('next' in reply) return [...path, answer];
	const isOver = 'back' in reply || ('events' in reply && reply.events.length > 0);
	return isOver ? home : path;
}

function hold(moment: Moment): Decision {
	const activity = activityOf(moment);
	if (activity === 'closed') return refuse('closed', 'The day is closed.');
	if (activity === 'hold') return { events: [], ui: freshUi };
	return { events: [{ type: 'break.began', kind: 'hold', by: 'painter' }], ui: freshUi };
}

function corner(ui: Ui, place: Place, key: Corner): Decision {
	const chosen = cornersOf(place.prompt, ui).get(key);
	return chosen
		? replied(ui, place, chosen.code, chosen)
		: refuse('empty-corner', 'Nothing is in that corner.');
}

function number(ui: Ui, place: Place, value: number): Decision {
	const { number: asked } = place.prompt;
	if (!asked) return refuse('no-number', 'No number is asked for.');
	const { min, max, unit } = asked;
	if (!Number.isFinite(value)) return refuse('not-a-number', 'That is no number.');
	if (value < min || value > max) return refuse('out-of-range', `Between ${min} and ${max} ${unit}, please.`);
	return replied(ui, place, value, asked.reply(value));
}

/** Longest reason that is kept, in characters. */
const longest = 200;

function text(ui: Ui, place: Place, given: string): Decision {
	const { text: asked } = place.prompt;
	if (!asked) return refuse('no-words', 'No words are asked for.');
	const words = [...given.trim()].slice(0, longest).join('');
	if (words === '') return refuse('no-words', 'A reason has words.');
	return replied(ui, place, words, { events: asked(words) });
}

/** What an answer to the question on the screen leads to. Nothing happens yet. */
export function decide(moment: Moment, ui: Ui, answer: Answer): Decision {
	if ('key' in answer && answer.key === 'hold') return hold(moment);
	const place = placeAt(moment, ui);
	if ('key' in answer) return corner(ui, place, answer.key);
	if ('number' in answer) return number(ui, place, answer.number);
	return text(ui, place, answer.text);
}
