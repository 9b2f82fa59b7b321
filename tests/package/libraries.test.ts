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

/** Those that DEVELOPERS.md gives a reason for, in its table. */
function withReason(): string[] {
	const text = readFileSync('DEVELOPERS.md', 'utf8');
	const part = text.split('## Libraries that ship')[1]?.split('\n## ')[0] ?? '';
	const rows = part.split('\n').filter(line => line.startsWith('| ') && !line.startsWith('| library'));
	const cells = rows.map(row => row.split('|').map(cell => cell.trim()));
	for (const [, library, use, reason] of cells)
		expect([library, use !== '', reason !== '']).toEqual([library, true, true]);
	return cells.flatMap(([, library = '']) =>
		library.split(',').map(name => name.trim().replace(/ \d+$/, '')),
	);
}

/** Those that come along because these ask for them. */
const broughtBy: Record<string, string> = {
	ink: `@alcalzone/ansi-tokenize ansi-escapes ansi-regex ansi-styles auto-bind chalk cli-boxes cli-cursor cli-truncate
		code-excerpt convert-to-spaces environment es-toolkit escape-string-regexp get-east-asian-width indent-string
		is-fullwidth-code-point is-in-ci mimic-fn onetime patch-console react-reconciler restore-cursor scheduler
		signal-exit slice-ansi stack-utils strip-ansi terminal-size widest-line wrap-ansi yoga-layout`,
	conf: `ajv ajv-formats atomically debounce-fn dot-prop env-paths fast-deep-equal fast-uri json-schema-traverse
		mimic-function semver stubborn-fs stubborn-utils uint8array-extras when-exit`,
	'd3-scale': 'd3-array d3-color d3-format d3-interpolate d3-path d3-time d3-time-format',
};

test('what ships is counted: each library has its reason in DEVELOPERS.md, or is brought by one that has', async () => {
	const reasoned = withReason();
	const brought = Object.entries(broughtBy).flatMap(([by, names]) => {
		expect(reasoned).toContain(by);
		return names.split(/\s+/);
	});
	expect([...reasoned, ...brought].sort()).toEqual(await librariesIn(program));
	const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
		dependencies?: Record<string, string>;
		devDependencies: Record<string, string>;
	};
	expect(dependencies ?? {}).toEqual({});
	for (const name of reasoned) expect(Object.keys(devDependencies)).toContain(name);
});

test('a program bundled without the savings has the libraries that ours is spared, and no debugging aid', async () => {
	const entryPoints = ['tests/bench/programs/bare-prompt.tsx'];
	const ours = await librariesIn({ ...options(), entryPoints });
	const bare = await librariesIn({ ...options({ without: 'savings' }), entryPoints });
	expect(bare.filter(name => !ours.includes(name))).toEqual(['emoji-regex', 'string-width']);
	expect(ours.filter(name => !bare.includes(name))).toEqual([]);
	expect(bare).not.toContain('ws');
});
