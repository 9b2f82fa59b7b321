import { readdirSync } from 'node:fs';
import { overdueLine } from '../by-date/dates.ts';
import { readDates } from '../by-date/kept.ts';
import { dataFolder, daysFolder, listDays } from '../day/file/folder.ts';
import { type OpenDay, openDays } from '../day/file/open-days.ts';
import { isoAt } from '../day/instant.ts';
import { localDate, localZone } from '../day/local-zone.ts';
import { exampleSheet } from '../job/checklists-folder.ts';
import { isMeantAsSheet, nameOnSheet } from '../job/glimpse.ts';
import { readText } from '../job/read-text.ts';
import type { Picker, SheetToPick } from '../screen/picker.ts';
import type { Command, Io } from './command.ts';
import { settingsInForce } from './settings-in-force.ts';
import { canShow, show } from './show.ts';

/** Job sheets in this folder, and what is meant for one. */
function sheetsHere(days: readonly OpenDay[]) {
	const here = readdirSync('.').filter(name => /\.ya?ml$/i.test(name));
	const sheets = here.toSorted().flatMap((path): (SheetToPick & { job: string | null })[] => {
		const read = readText(path, '');
		const job = read.ok ? nameOnSheet(read.text) : null;
		if (job === null && !(read.ok && isMeantAsSheet(read.text))) return [];
		const openDay = days.find(({ name }) => name === job)?.path ?? null;
		return [{ path, job, name: job ?? path, openDay }];
	});
	const alike = (name: string) => sheets.filter(one => one.name === name).length > 1;
	return sheets.map(one => (alike(one.name) ? { ...one, name: `${one.job}, ${one.path}` } : one));
}

/** Finds sheets that cannot be used while the picker is up: reading one takes longer than a start may. */
async function findWrong(sheets: readonly SheetToPick[], { picked, cannotBeUsed }: Picker): Promise<void> {
	const { check } = await import('./check.ts');
	for (const { path } of sheets) {
		if (picked()) return;
		const found = await check(path);
		const [first, ...more] = 'errors' in found ? found.errors : [];
		if (!first) continue;
		const count = more.length === 0 ? 'an error' : `${more.length + 1} errors, first`;
		cannotBeUsed(path, { file: path, why: `cannot be used, ${count} in line ${first.line}` });
	}
}

/** Jobs to go on with; whoever has no closed day waits for none of what works them out. */
async function closedJobs(days: readonly OpenDay[]) {
	if (listDays(daysFolder()).length <= days.length) return [];
	const { jobsToGoOn } = await import('./jobs-to-go-on.ts');
	return jobsToGoOn(
		days.map(({ name }) => name),
		Date.now(),
		localZone(),
	);
}

async function run(io: Io): Promise<number> {
	const demo = async () => (await import('./demo.ts')).demo(io);
	if (!process.stdin.isTTY || !process.stdout.isTTY) return demo();
	const settings = await settingsInForce(io);
	if (!canShow(settings.plain, io)) return demo();
	const { openPicker } = await import('../screen/picker.ts');
	const { readFromHere } = await import('../screen/window.ts');
	const days = openDays();
	/** Worked out anew only where the window has changed. */
	let known = { size: '', words: '' };
	const read = () => {
		const size = `${process.stdout.columns} x ${process.stdout.rows}`;
		if (known.size !== size) known = { size, words: `${readFromHere(settings, io.env)}.` };
		return known.words;
	};
	const overdue = overdueLine(readDates(dataFolder()), localDate(Date.now()));
	const jobs = await closedJobs(days);
	const here = sheetsHere(days);
	const example = { path: exampleSheet(), job: null, name: 'the example', openDay: null };
	const sheets = here.length + days.length + jobs.length > 0 ? here : [example];
	const picker = openPicker(sheets, days, () => isoAt(Date.now()), read, overdue, jobs);
	void findWrong(here, picker);
	const status = await show({ session: picker.session, settings }, io);
	const picked = picker.picked();
	if (!picked) return status;
	if (picked.what === 'new')
		return (await import('./new.ts')).newCommand.run({ positionals: [], options: {} }, io);
	if (picked.what === 'mend')
		return (await import('./check.ts')).checkCommand.run({ positionals: [picked.sheet], options: {} }, io);
	if (picked.what === 'rehearse') return (await import('./rehearse.ts')).rehearseAtTerminal(picked.sheet, io);
	const { carryOn, goOn, spray } = await import('./spray.ts');
	if (picked.what === 'carry-on') return carryOn(picked.day, io);
	const goesOn = await (await import('./ask-by-date.ts')).askByDate(settings, io);
	if (!goesOn) return 0;
	if (picked.what === 'spray') return spray(picked.sheet, io);
	const { name } = jobs.find(({ day }) => day === picked.day) ?? {};
	const sheet = sheets.find(({ job }) => job === name);
	return sheet ? spray(sheet.path, io) : goOn(picked.day, io);
}

/** What the program does when it is given no command. */
export const startCommand: Command = {
	name: 'fanwise',
	summary:
		'in a terminal: carry on a day, go on with a job, pick a sheet to spray or to rehearse, or ask for a new one',
	usage: [''],
	options: {},
	examples: [],
	run: (_args, io) => run(io),
};
