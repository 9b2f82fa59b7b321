import { dataFolder } from '../day/file/folder.ts';
import type { Settings } from '../day/settings.ts';
import type { Io } from './command.ts';

/** The shop's settings; `--units` goes before what they say. A file that cannot be used is said once. */
export async function settingsInForce(io: Io): Promise<Settings> {
	const { readSettings } = await import('../settings/kept.ts');
	const { settings, trouble } = readSettings(dataFolder());
	if (trouble) io.stderr.write(`${trouble}\n`);
	return io.units ? { ...settings, units: io.units } : settings;
}
