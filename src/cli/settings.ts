import { dataFolder } from '../day/file/folder.ts';
import { settingsSchema } from '../day/settings.ts';
import { nearest } from '../trade/nearest.ts';
import type { Args, Command, Io } from './command.ts';

/** `5`, `true` and `null` as what they are; anything else is a word. */
function parsedValue(text: string): unknown {
	try {
		return JSON.parse(text) as unknown;
	} catch {
		return text;
	}
}

async function run({ positionals, options }: Args, io: Io): Promise<number> {
	const refuse = (message: string): number => {
		io.stderr.write(`fanwise settings: ${message}\n`);
		return 2;
	};
	const { changeSetting, readSettings } = await import('../settings/kept.ts');
	const folder = dataFolder();
	const [key, value, ...rest] = positionals;
	const keys = Object.keys(settingsSchema.shape);
	if (key !== undefined && !keys.includes(key))
		return refuse(
			`there is no setting "${key.slice(0, 40)}": the nearest is "${nearest(key.slice(0, 40), keys)}"`,
		);
	if (rest.length > 0) return refuse('one setting and one value at a time: fanwise settings KEY VALUE');
	if (key !== undefined && value !== undefined) {
		const changed = changeSetting(folder, key, parsedValue(value));
		if (!changed.ok) return refuse(`${changed.message}; nothing was changed`);
	}
	const { settings, trouble, path } = readSettings(folder);
	if (trouble) io.stderr.write(`${trouble}\n`);
	if (options.json) {
		io.stdout.write(
			`${JSON.stringify(key === undefined ? settings : { [key]: settings[key as 'units'] })}\n`,
		);
		return 0;
	}
	const shown = Object.entries(settings).filter(([name]) => key === undefined || name === key);
	for (const [name, held] of shown) io.stdout.write(`${name.padEnd(18)} ${JSON.stringify(held)}\n`);
	if (key === undefined) io.stdout.write(`kept in ${path}\n`);
	if (key === undefined || key === 'screen_mm' || key === 'distance_m') {
		const { readFromHere } = await import('../screen/window.ts');
		io.stdout.write(`${readFromHere(settings, io.env)} in this window.\n`);
	}
	return 0;
}

export const settingsCommand: Command = {
	name: 'settings',
	summary: 'the settings, or one of them changed',
	usage: ['settings [KEY [VALUE]]'],
	options: { json: { type: 'boolean', says: 'as one line of JSON' } },
	examples: ['settings', 'settings by face', 'settings units metric', 'settings screen_mm 340'],
	run,
};
