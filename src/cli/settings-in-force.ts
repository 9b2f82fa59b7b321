import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { dataFolder } from '../day/file/folder.ts';
import type { Settings } from '../day/settings.ts';
import { standardSettings } from '../day/standard-settings.ts';
import type { Io } from './command.ts';

/** What a shop has chosen; what reads it is heavy, and left alone where there is no file of settings. */
async function chosen(io: Io): Promise<Settings> {
	const folder = dataFolder();
	if (!existsSync(join(folder, 'settings.json'))) return standardSettings;
	const { readSettings } = await import('../settings/kept.ts');
	const { settings, trouble } = readSettings(folder);
	if (trouble) io.stderr.write(`${trouble}\n`);
	return settings;
}

/** The shop's settings; `--units` goes before what they say. A file that cannot be used is said once. */
export async function settingsInForce(io: Io): Promise<Settings> {
	const settings = await chosen(io);
	return io.units ? { ...settings, units: io.units } : settings;
}
