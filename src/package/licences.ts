import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//;

/** The folders of the packages that a bundle was made of. */
export const packagesIn = (inputs: readonly string[]): string[] =>
	[...new Set(inputs.flatMap(input => folder.exec(input)?.[1] ?? []))].sort();

/**
 * The licences of the packages that a bundle holds, as their authors ask for them to be passed on with it.
 * @param folders of the packages
 * @throws Error where a package names no licence
 */
export function licencesOf(folders: readonly string[]): string {
	const parts = folders.map(at => {
		const about = JSON.parse(readFileSync(join(at, 'package.json'), 'utf8')) as {
			name: string;
			version: string;
			license?: string;
		};
		if (!about.license) throw new Error(`${at}: names no licence: leave it out of the bundle`);
		const file = existsSync(at)
			? readdirSync(at).find(name => /^(licen[cs]e|copying)/i.test(name))
			: undefined;
		const text = file ? readFileSync(join(at, file), 'utf8').trim() : 'No text of it comes with the package.';
		return `${about.name} ${about.version}: ${about.license}\n\n${text}\n`;
	});
	return `The program holds parts of these packages.\n\n${parts.join(`\n${'-'.repeat(78)}\n\n`)}`;
}
