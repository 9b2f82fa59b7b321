import { readFileSync } from 'node:fs';
import { type BuildOptions, build } from 'esbuild';
import { expect, test } from 'vitest';
import { filesIn, options, program } from '../../src/package/bundle.js';
import { packagesIn } from '../../src/package/licences.ts';

/** Every library of which something is in a bundle. */
async function librariesIn(bundle: BuildOptions): Promise<string[]> {
	const { metafile } = await build({ ...bundle, outdir: 'nowhere', write: false, metafile: true });
	const names = packagesIn(filesIn(metafile)).map(folder => folder.replace(/^.*node_modules\//, ''));
	return [...new Set(names)].sort();
}

/** Those that DEVELOPERS.md names: in its table with a reason each, and after it as what they bring along. */
function named(): { withReason: string[]; brought: string[] } {
	const text = readFileSync('DEVELOPERS.md', 'utf8');
	const part = text.split('## Libraries that ship')[1]?.split('\n## ')[0] ?? '';
	const rows = part.split('\n').filter(line => line.startsWith('| ') && !line.startsWith('| library'));
	const cells = rows.map(row => row.split('|').map(cell => cell.trim()));
	for (const [, library, use, reason] of cells)
		expect([library, use !== '', reason !== '']).toEqual([library, true, true]);
	const withReason = cells.flatMap(([, library = '']) =>
		library.split(',').map(name => name.trim().replace(/ \d+$/, '')),
	);
	const lists = part.split(/^- /m).slice(1);
	const brought = lists.flatMap(list =>
		(list.split('\n\n')[0] ?? '')
			.replace(/^[^:]*:/, '')
			.split(',')
			.map(name => name.trim()),
	);
	return { withReason, brought };
}

test('what ships is counted: each library in the bundle is named in DEVELOPERS.md, and none that is not', async () => {
	const { withReason, brought } = named();
	const told = [...withReason, ...brought];
	expect(told.length).toBe(new Set(told).size);
	expect(told.sort()).toEqual(await librariesIn(program));
	const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
		dependencies?: Record<string, string>;
		devDependencies: Record<string, string>;
	};
	expect(dependencies ?? {}).toEqual({});
	for (const name of withReason) expect(Object.keys(devDependencies)).toContain(name);
});

test('a program bundled without the savings has the libraries that ours is spared, and no debugging aid', async () => {
	const entryPoints = ['tests/bench/programs/bare-prompt.tsx'];
	const ours = await librariesIn({ ...options(), entryPoints });
	const bare = await librariesIn({ ...options({ without: 'savings' }), entryPoints });
	expect(bare.filter(name => !ours.includes(name))).toEqual(['emoji-regex', 'string-width']);
	expect(ours.filter(name => !bare.includes(name))).toEqual([]);
	expect(bare).not.toContain('ws');
});
