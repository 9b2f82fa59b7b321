import { renameSync } from 'node:fs';
import { join } from 'node:path';
import Conf from 'conf';
import * as z from 'zod/mini';
import { type Settings, settingsSchema } from '../day/settings.ts';
import { standardSettings } from '../day/standard-settings.ts';
import { firstOf } from './said.ts';

/** The shop's settings, kept in one file of its own folder. */

export type Kept = {
	settings: Settings;
	/** Said once where the file could not be used: what was wrong, and where it was put. */
	trouble: string | null;
	path: string;
};

const fileSchema = z.strictObject(settingsSchema.shape);
const asFound = { reportInput: true };

const open = (folder: string) =>
	new Conf({ cwd: folder, configName: 'settings', clearInvalidConfig: false, configFileMode: 0o600 });

function setAside(folder: string, why: string): Kept {
	const path = join(folder, 'settings.json');
	const aside = `${path}.set-aside-${Date.now()}`;
	renameSync(path, aside);
	return {
		settings: standardSettings,
		trouble: `${path}: ${why}. It was put aside as ${aside}; the standard settings are used`,
		path,
	};
}

/**
 * The settings in a folder. A file that cannot be used is put aside, said, and the standard settings are used.
 * @param folder is made where it is missing
 */
export function readSettings(folder: string): Kept {
	try {
		const kept = open(folder);
		const parsed = fileSchema.safeParse(kept.store, asFound);
		if (!parsed.success) return setAside(folder, firstOf(parsed.error));
		return { settings: parsed.data, trouble: null, path: kept.path };
	} catch (error) {
		if (error instanceof SyntaxError) return setAside(folder, 'it is no JSON');
		throw error;
	}
}

export type Changed = { ok: true; settings: Settings } | { ok: false; message: string };

/** Changes one setting; nothing is written where the value is not allowed. */
export const changeSetting = (folder: string, key: string, value: unknown): Changed =>
	changeSettings(folder, { [key]: value });

/** Changes several settings together, or none of them. */
export function changeSettings(folder: string, change: Record<string, unknown>): Changed {
	const { settings } = readSettings(folder);
	const parsed = fileSchema.safeParse({ ...settings, ...change }, asFound);
	if (!parsed.success) return { ok: false, message: firstOf(parsed.error) };
	const kept = open(folder);
	kept.store = parsed.data as unknown as Record<string, unknown>;
	return { ok: true, settings: parsed.data };
}
