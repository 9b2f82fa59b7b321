import { promptAt } from './ask.ts';
import { activityOf, type Moment } from './moment.ts';
import { freshUi, type Option, type Prompt, type Reply, type Ui } from './prompt.ts';
import type { DayEvent } from './records.ts';
import type { Answer } from './view.ts';
import { cornersOf } from './view-of.ts';

export type Refusal = { code: string; text: string };
export type Decision = { events: DayEvent[]; ui: Ui } | { refused: Refusal };

const refuse = (code: string, text: string): Decision => ({ refused: { code, text } });

function applied(ui: Ui, { events = [], ui: change }: Reply): Decision {
	const base = events.length > 0 ? freshUi : { ...ui, page: 0, notice: null };
	return { events, ui: { ...base, ...change } };
}

function hold(moment: Moment): Decision {
	const activity = activityOf(moment);
	if (activity === 'closed') return refuse('closed', 'The day is closed.');
	if (activity === 'hold') return { events: [], ui: freshUi };
	return { events: [{ type: 'break.began', kind: 'hold', by: 'painter' }], ui: freshUi };
}

function corner(
	prompt: Prompt,
	ui: Ui,
	key: Exclude<Answer, { number: number } | { text: string }>['key'],
): Decision {
	const turn = (page: number) => () => ({ ui: { page } });
	const options: Map<string, Option> = cornersOf(prompt, ui, turn);
	const chosen = options.get(key);
	if (!chosen) return refuse('empty-corner', 'Nothing is in that corner.');
	const decision = applied(ui, chosen.reply());
	return chosen.code === 'more' && 'ui' in decision
		? { ...decision, ui: { ...ui, page: ui.page + 1 } }
		: decision;
}

function number({ number: asked }: Prompt, ui: Ui, value: number): Decision {
	if (!asked) return refuse('no-number', 'No number is asked for.');
	const { min, max, unit } = asked;
	if (!Number.isFinite(value)) return refuse('not-a-number', 'That is no number.');
	if (value < min || value > max) return refuse('out-of-range', `Between ${min} and ${max} ${unit}, please.`);
	return applied(ui, asked.reply(value));
}

/** Longest reason that is kept, in characters. */
const longest = 200;

function text({ text: asked }: Prompt, ui: Ui, given: string): Decision {
	if (!asked) return refuse('no-words', 'No words are asked for.');
	const words = [...given.trim()].slice(0, longest).join('');
	if (words === '') return refuse('no-words', 'A reason has words.');
	return applied(ui, asked(words));
}

/** What an answer to the question on the screen leads to. Nothing happens yet. */
export function decide(moment: Moment, ui: Ui, answer: Answer): Decision {
	if ('key' in answer && answer.key === 'hold') return hold(moment);
	const prompt = promptAt(moment, ui);
	if ('key' in answer) return corner(prompt, ui, answer.key);
	if ('number' in answer) return number(prompt, ui, answer.number);
	return text(prompt, ui, answer.text);
}
