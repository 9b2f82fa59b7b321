import { renameSync } from 'node:fs';
import { join } from 'node:path';
import Conf from 'conf';
import * as z from 'zod/mini';
import en from 'zod/v4/locales/en.js';
import { type Settings, settingsSchema } from '../day/settings.ts';
import { standardSettings } from '../day/standard-settings.ts';

/** The shop's settings, kept in one file of its own folder. */

export type Kept = {
	settings: Settings;
	/** Said once where the file could not be used: what was wrong, and where it was put. */
	trouble: string | null;
	path: string;
};

/** What is wrong with a setting is said in the library's own English. */
z.config(en());

const fileSchema = z.strictObject(settingsSchema.shape);

const open = (folder: string) =>
	new Conf({ cwd: folder, configName: 'settings', clearInvalidConfig: false, configFileMode: 0o600 });

function setAside(folder: string, why: string): Kept {
	const path = join(folder, 'settings.json');
	const aside = `${path}.set-aside-${Date.now()}`;
	renameSync(path, aside);
	return {
		settings: standardSettings,
		trouble: `${path}: ${why}: put aside as ${aside}, the standard settings are used`,
		path,
	};
}

/** What is wrong with a settings file: the first key, what it says and what it may say. */
function firstIssue(error: { issues: { path: PropertyKey[]; message: string }[] }): string {
	const issue = error.issues[0];
	return issue ? `${issue.path.join('.') || 'the file'}: ${issue.message}` : 'it is not a settings file';
}

/**
 * The settings in a folder. A file that cannot be used is put aside, said, and the standard settings are used.
 * @param folder is made where it is missing
 */
export function readSettings(folder: string): Kept {
	try {
		const kept = open(folder);
		const parsed = fileSchema.safeParse(kept.store);
		if (!parsed.success) return setAside(folder, firstIssue(parsed.error));
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
	const parsed = fileSchema.safeParse({ ...settings, ...change });
	if (!parsed.success) return { ok: false, message: firstIssue(parsed.error) };
	const kept = open(folder);
	kept.store = parsed.data as unknown as Record<string, unknown>;
	return { ok: true, settings: parsed.data };
}
