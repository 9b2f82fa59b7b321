import type * as z from 'zod/mini';
import { settingsSchema } from '../day/settings.ts';
import { notAllowed } from '../job/errors.ts';
import { brief } from '../job/inert.ts';

/** What is wrong with a setting, in the words of whoever has to change it. */

type Issue = z.core.$ZodIssue;

const kinds: Readonly<Record<string, string>> = {
	number: 'a number',
	boolean: 'true or false',
	string: 'text',
	array: 'a list',
	object: 'what fanwise keys writes',
};

const written = (value: unknown): string =>
	brief(typeof value === 'string' ? value : (JSON.stringify(value) ?? 'nothing'));

function says(issue: Issue): string {
	const found = `found "${written(issue.input)}"`;
	switch (issue.code) {
		case 'too_small':
			return `${found}; ${issue.minimum} or more wanted`;
		case 'too_big':
			return `${found}; ${issue.maximum} or less wanted`;
		case 'invalid_value':
			return notAllowed(written(issue.input), issue.values.map(String));
		case 'invalid_type':
			return `${found}; ${kinds[issue.expected] ?? issue.expected} wanted`;
		case 'unrecognized_keys':
			return notAllowed(issue.keys[0] ?? '', Object.keys(settingsSchema.shape));
		default:
			return issue.message;
	}
}

/** The first thing wrong: the setting, what it says and what it may say. */
export function firstOf({ issues: [issue] }: { issues: readonly Issue[] }): string {
	if (!issue) return 'it is not a settings file';
	const setting = issue.path.join('.') || 'a setting';
	return `${setting}: ${says(issue)}`;
}
