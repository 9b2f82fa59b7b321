import { readdirSync } from 'node:fs';
import { basename } from 'node:path';
import { loadDay } from '../day/file/days.ts';
import { daysFolder, listDays } from '../day/file/folder.ts';
import { DayFileError } from '../day/file/trouble.ts';
import { isoAt } from '../day/instant.ts';
import { loadJob } from '../job/load.ts';
import type { Command, Io } from './command.ts';
import { exampleSheet } from './package.ts';
import { settingsInForce } from './settings-in-force.ts';
import { canShow, show } from './show.ts';

type OpenDay = { path: string; name: string; began: string };

/** Days that were begun on the real clock and never closed; one that cannot be read is left to its own command. */
function openDays(): OpenDay[] {
	return listDays(daysFolder()).flatMap(({ path }): OpenDay[] => {
		try {
			const records = loadDay(path);
			const first = records[0];
			if (first?.type !== 'day.opened' || first.clock !== 'real') return [];
			if (records.some(({ type }) => type === 'day.closed')) return [];
			return [{ path, name: first.job, began: first.at.slice(0, 16).replace('T', ' ') }];
		} catch (error) {
			if (error instanceof DayFileError) return [];
			throw error;
		}
	});
}

/** Job sheets in this folder, and the example that comes with the program. */
async function sheetsHere(days: readonly OpenDay[]) {
	const here = readdirSync('.').filter(name => /\.ya?ml$/i.test(name));
	const sheets = [];
	for (const path of [...here, exampleSheet()]) {
		const loaded = await loadJob(path);
		if (!loaded.ok) continue;
		const openDay = days.find(({ name }) => name === loaded.job.name)?.path ?? null;
		sheets.push({ path, name: path === exampleSheet() ? 'the example' : basename(path), openDay });
	}
	return sheets;
}

async function run(io: Io): Promise<number> {
	const demo = async () => (await import('./demo.ts')).demo(io);
	if (!process.stdin.isTTY || !process.stdout.isTTY) return demo();
	const settings = await settingsInForce(io);
	if (!(await canShow(settings.plain, io))) return demo();
	const { openPicker } = await import('../screen/picker.ts');
	const days = openDays();
	const picker = openPicker(await sheetsHere(days), days, () => isoAt(Date.now()));
	const status = await show({ session: picker.session, settings }, io);
	const picked = picker.picked();
	if (!picked) return status;
	if (picked.what === 'rehearse') return (await import('./rehearse.ts')).rehearseAtTerminal(picked.sheet, io);
	const { carryOn, spray } = await import('./spray.ts');
	return picked.what === 'carry-on' ? carryOn(picked.day, io) : spray(picked.sheet, io);
}

/** What the program does when it is given no command. */
export const startCommand: Command = {
	name: 'fanwise',
	summary: 'in a terminal: carry on an open day, or pick a job sheet, to spray or to rehearse',
	usage: [''],
	options: {},
	examples: [],
	run: (_args, io) => run(io),
};
