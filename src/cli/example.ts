import { readFile, writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { exampleSheet } from '../job/checklists-folder.ts';
import { brief } from '../job/inert.ts';
import type { Command } from './command.ts';

const refusals: Record<string, string> = {
	EEXIST: 'is there already, and is left as it is: give another name',
	ENOENT: 'cannot be written: its folder is not there',
	ENOTDIR: 'cannot be written: its folder is not there',
	EISDIR: 'is a folder: give a file name in it',
	EACCES: 'may not be written: choose another folder',
	EROFS: 'cannot be written: the disk can only be read: choose another folder',
};

/** Writes the example job sheet. */
export const exampleCommand: Command = {
	name: 'example',
	summary: 'writes the example job sheet, to begin one of your own with',
	usage: ['example [FILE]'],
	options: {},
	examples: ['example', 'example my-cart.yaml'],
	async run({ positionals }, io) {
		const [file = basename(exampleSheet()), ...more] = positionals;
		if (more.length > 0) {
			io.stderr.write('fanwise example: name one file, or none for coffee-cart.yaml\n');
			return 2;
		}
		try {
			const sheet = await readFile(exampleSheet());
			await writeFile(file, sheet, { flag: 'wx' });
		} catch (error) {
			const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
			io.stderr.write(`${brief(file, 200)}: ${refusals[code] ?? `cannot be written (${brief(code)})`}\n`);
			return 2;
		}
		io.stdout.write(`${brief(file, 200)}: written. Next: fanwise check ${brief(file, 200)}\n`);
		return 0;
	},
};
