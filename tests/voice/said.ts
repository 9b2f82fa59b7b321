import fc from 'fast-check';
import { type Settings, settingsSchema } from '../../src/day/settings.ts';
import type { View } from '../../src/day/view.ts';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob, parseJob } from '../../src/job/load.ts';
import { freshEar, hears } from '../../src/voice/ear.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { ownSheet, someFaces } from '../job/own-sheet.ts';

export type Sheet = { job: Job; lists: Checklist[] };

const sheetOf = async (loaded: Awaited<ReturnType<typeof loadJob>>, path: string): Promise<Sheet> => {
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	const lists = await loadLists(loaded.job, path);
	if (!lists.ok) throw new Error(lists.errors[0]?.says);
	return { job: loaded.job, lists: lists.lists };
};

const cart = 'checklists/example/coffee-cart.yaml';
export const exampleSheet = async () => sheetOf(await loadJob(cart), cart);
export const fortyFaces = async () => sheetOf(parseJob(ownSheet(someFaces(40)), 'own.yaml'), 'own.yaml');

const odd = fc.constantFrom(
	...['hold', 'kill', 'hangup', 'sleep 2 min', 'clock 5 min', 'clock -1 h', 'trigger on', 'trigger off'],
	...['wait 3 s', 'wait 40 s', 'wait 8 min', 'wait 70 min', 'number 100', 'number 25', 'text because'],
	...['top-left', 'top-right', 'bottom-left', 'bottom-right'],
	...['top-left', 'top-right', 'bottom-left', 'bottom-right'],
);
const between = fc.array(fc.record({ after: fc.nat(12), line: odd }), { minLength: 60, maxLength: 60 });

/** Every sentence that is heard of a day with all sorts of things in between, and what the screens of it say. */
export function saidIn(sheet: Sheet, settings: Partial<Settings>, seed: number) {
	const day = rehearsed({ ...sheet, settings });
	const told = { ...settingsSchema.parse(settings), overdue: true };
	const asked = new Set<string>();
	const heard = new Set<string>();
	let ear = freshEar;
	const listen = () => {
		const view: View = { ...day.line(), rehearsal: true };
		const step = hears(ear, view, told);
		ear = step.ear;
		asked.add(view.say);
		if (step.heard.say !== null) heard.add(step.heard.say);
	};
	const send = (line: string) => {
		day.send(line);
		listen();
	};
	const answer = () => {
		const next = day.painter.answer(day.line());
		if (next !== null) send(next);
		return next !== null;
	};
	listen();
	for (const { after, line } of fc.sample(between, { seed, numRuns: 1 }).flat()) {
		for (let step = 0; step < after; step++) answer();
		send(line);
	}
	for (let step = 0; step < 5000 && answer(); step++);
	return { asked, heard, records: day.records() };
}
