import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';

/** Which sources the built program was made of, so that nobody runs or tests yesterday's. */

const sources = ['checklists', 'machines', 'src', 'package.json', 'package-lock.json'];

/** @param {string} at a file, or a folder with all that is in it */
const filesOf = at =>
	statSync(at).isFile()
		? [at]
		: readdirSync(at, { recursive: true, encoding: 'utf8' })
				.map(name => path.join(at, name))
				.filter(file => statSync(file).isFile())
				.sort();

/**
 * A number for all that the program is built of: another one with any letter, any name, a file more or less.
 * @param {string} project its folder
 */
function sumOf(project) {
	const sum = createHash('sha256');
	for (const file of sources.flatMap(name => filesOf(path.join(project, name)))) {
		const bytes = readFileSync(file);
		sum.update(`${path.relative(project, file)} ${bytes.length}\n`).update(bytes);
	}
	return sum.digest('hex');
}

/** @param {string} project */
const stampOf = project => path.join(project, 'dist', 'sources.sha256');

/**
 * What the build leaves in `dist` to know it again by: a path and its text.
 * @param {string} project
 * @returns {[path: string, text: string]}
 */
export const stamp = project => [stampOf(project), sumOf(project)];

/**
 * Whether `dist` has the program that the sources make as they stand.
 * @param {string} project
 */
export const isBuilt = project =>
	existsSync(stampOf(project)) && readFileSync(stampOf(project), 'utf8') === sumOf(project);
