import { expect, test } from 'vitest';
import type { Line } from '../../src/day/rehearsal.ts';
import { standardSettings } from '../../src/day/standard-settings.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { keyFor } from '../../src/painter/painter.ts';
import { shelf, shortSheet } from '../job/chairs/long-form.ts';
import { rehearsed } from './rehearsed.ts';

/** Two figures of the air are taken by themselves. */
const ofAir = ['airC', 'humidity', 'surfaceC'];

/** Keys of one line of input: a corner is one, of a number its figures and Enter; time that passes is none. */
function pressesOf({ of = '' }: Line, input: string): number {
	const [word = '', ...rest] = input.split(' ');
	if (word === 'wait') return 0;
	if (ofAir.includes(of) && /^\d{2}$/.test(rest.join(''))) return 2;
	return word === 'number' || word === 'text' ? rest.join(' ').length + 1 : 1;
}

/** A look and a key take so long, s: six or seven of them are the minute that a gun check is given. */
const look_s = 8;

/** A question of one kind: activity and step, without the words of what is poured or asked about. */
const kindOf = ({ state, of }: Line): string => (of ? `${state} (${of})` : state);

/** Presses of the first day of a job, from its first screen to clean-up, by kind of question. */
async function firstDay(sheet: string, from?: string) {
	const loaded = await loadJob(sheet, from);
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	const listed = await loadLists(loaded.job, sheet);
	if (!listed.ok) throw new Error(listed.errors[0]?.says);
	const day = rehearsed({ job: loaded.job, lists: listed.lists, settings: { by: standardSettings.by } });
	const presses = new Map<string, number>();
	for (let line = day.line(); !line.state.startsWith('list.clean-up'); line = day.line()) {
		const input = line.state === 'left' ? keyFor(line, 'quarter') : day.painter.answer(line);
		if (input === null) throw new Error(`the day ended in ${line.state}, before its clean-up`);
		if (line.ask !== 'wait' && line.ask !== 'spraying') day.send(`wait ${look_s} s`);
		presses.set(kindOf(line), (presses.get(kindOf(line)) ?? 0) + pressesOf(line, input));
		day.send(input);
	}
	const slips = day.ofType('reading.taken').filter(({ matched }) => !matched);
	return { presses, slips, laid: day.ofType('face.ended').length };
}

const sumOf = (presses: ReadonlyMap<string, number>): number =>
	[...presses.values()].reduce((sum, one) => sum + one, 0);

/** Rows in the order in which they are first asked. */
function tableOf(days: readonly Awaited<ReturnType<typeof firstDay>>[]): string {
	const kinds = [...new Set(days.flatMap(({ presses }) => [...presses.keys()]))];
	const asked = kinds.filter(kind => days.some(({ presses }) => presses.get(kind)));
	const rows = [
		...asked.map(kind => [kind, ...days.map(({ presses }) => presses.get(kind) ?? 0)]),
		['**sum**', ...days.map(({ presses }) => sumOf(presses))],
		['coats of faces', ...days.map(({ laid }) => laid)],
		['a coat of a face', ...days.map(({ presses, laid }) => (sumOf(presses) / laid).toFixed(1))],
	];
	return `# Presses of a first day

Enter and figures counted, no slip, what is left in the cup by eye, from the first screen to clean-up, ${look_s} s a look and its key. Written by \`presses.test.ts\`.

| question | the example | eight chairs |
|---|--:|--:|
${rows.map(row => `| ${row.join(' | ')} |`).join('\n')}
`;
}

test('what a first day costs in presses, by kind of question: the example and eight chairs', async () => {
	const days = [await firstDay('checklists/example/coffee-cart.yaml'), await firstDay(shortSheet, shelf)];
	expect(days.map(({ slips }) => slips)).toEqual([[], []]);
	await expect(tableOf(days)).toMatchFileSnapshot('presses.md');
}, 240_000);
