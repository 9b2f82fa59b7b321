import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Conf from 'conf';
import * as z from 'zod/mini';
import { moveToMade } from '../day/file/fresh.ts';
import { disk } from '../day/file/port.ts';
import { saySystemError } from '../day/file/trouble.ts';
import { type Settings, settingsSchema } from '../day/settings.ts';
import { standardSettings } from '../day/standard-settings.ts';
import { readText } from '../job/read-text.ts';
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

const fileIn = (folder: string): string => join(folder, 'settings.json');

const open = (folder: string) =>
	new Conf({ cwd: folder, configName: 'settings', clearInvalidConfig: false, configFileMode: 0o600 });

/** Moves a file that cannot be used out of the way, to a name that nothing has; says where it is. */
function putAside(path: string): string {
	const aside = `${path}.set-aside-${Date.now()}`;
	try {
		moveToMade(disk, path, { name: aside, handle: disk.open(aside, 'new') });
		return `It was put aside as ${aside}`;
	} catch (error) {
		return `It could not be put aside: ${saySystemError(error)}`;
	}
}

/** What a file says, or what is wrong with it. */
export function parseSettings(text: string): { settings: Settings } | { bad: string } {
	let raw: unknown;
	try {
		raw = JSON.parse(text);
	} catch {
		return { bad: 'it is no JSON' };
	}
	const read = fileSchema.safeParse(raw, asFound);
	return read.success ? { settings: read.data } : { bad: firstOf(read.error) };
}

/** The settings in a folder. A file that cannot be used is put aside, said, and the standard settings are used. */
export function readSettings(folder: string): Kept {
	const path = fileIn(folder);
	if (!existsSync(path)) return { settings: standardSettings, trouble: null, path };
	const text = readText(path, 'begin one with fanwise settings KEY VALUE');
	const read = text.ok ? parseSettings(text.text) : { bad: text.errors[0]?.says ?? 'cannot be read' };
	if ('settings' in read) return { settings: read.settings, trouble: null, path };
	const trouble = `${path}: ${read.bad}. ${putAside(path)}; the standard settings are used`;
	return { settings: standardSettings, trouble, path };
}

export type Changed = { ok: true; settings: Settings } | { ok: false; message: string };

/** Changes one setting; nothing is written where the value is not allowed. */
export const changeSetting = (folder: string, key: string, value: unknown): Changed =>
	changeSettings(folder, { [key]: value });

/** Changes several settings together, or none of them. */
export function changeSettings(folder: string, change: Record<string, unknown>): Changed {
	const { settings } = readSettings(folder);
	const read = fileSchema.safeParse({ ...settings, ...change }, asFound);
	if (!read.success) return { ok: false, message: firstOf(read.error) };
	try {
		disk.makeFolder(folder);
		open(folder).store = { ...read.data };
	} catch (error) {
		return { ok: false, message: `${fileIn(folder)}: it was not written; ${saySystemError(error)}` };
	}
	return { ok: true, settings: read.data };
}
