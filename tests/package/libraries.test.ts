import { readFileSync } from 'node:fs';
import { type BuildOptions, build, type Metafile } from 'esbuild';
import { expect, test } from 'vitest';
import { commands } from '../../src/cli/commands.ts';
import { filesIn, options, page, program } from '../../src/package/bundle.js';
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
	const shipped = (await Promise.all([program, page].map(librariesIn))).flat();
	expect([...reasoned, ...brought].sort()).toEqual([...new Set(shipped)].sort());
	const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
		dependencies?: Record<string, string>;
		devDependencies: Record<string, string>;
	};
	expect(dependencies ?? {}).toEqual({});
	for (const name of reasoned) expect(Object.keys(devDependencies)).toContain(name);
});

/** What is loaded, at once or later, by the part of the program that a file begins. */
function reachedFrom({ outputs }: Metafile, file: string): string[] {
	const [begins] = Object.entries(outputs).find(([, { entryPoint }]) => entryPoint === file) ?? [];
	if (begins === undefined) throw new Error(`${file} begins no part of the program`);
	const parts = new Set([begins]);
	for (const part of parts)
		for (const { path } of outputs[part]?.imports ?? []) if (outputs[path]) parts.add(path);
	return [...parts].flatMap(part => Object.keys(outputs[part]?.inputs ?? {}));
}

test('the libraries of the board are its own: no other command comes to them, by whatever way', async () => {
	const { metafile } = await build({ ...program, outdir: 'nowhere', write: false });
	const isOfBoard = (input: string) => /node_modules\/(?:@?hono|preact)|^src\/board\//.test(input);
	expect(reachedFrom(metafile, 'src/cli/board.ts').filter(isOfBoard).length).toBeGreaterThan(10);
	const others = commands.map(({ name }) => name).filter(name => name !== 'board');
	expect(others).toContain('spray');
	for (const name of [...others, 'start'])
		expect([name, reachedFrom(metafile, `src/cli/${name}.ts`).filter(isOfBoard)]).toEqual([name, []]);
	/** Of the program itself, by what it loads at its start. */
	const { outputs } = metafile;
	const start = Object.values(outputs).find(({ entryPoint }) => entryPoint === 'src/cli/fanwise.ts');
	const atOnce = new Set(
		(start?.imports ?? []).filter(({ kind }) => kind === 'import-statement').map(({ path }) => path),
	);
	expect([...atOnce].flatMap(part => Object.keys(outputs[part]?.inputs ?? {})).filter(isOfBoard)).toEqual([]);
});

test('a program bundled without the savings has the libraries that ours is spared, and no debugging aid', async () => {
	const entryPoints = ['tests/bench/programs/bare-prompt.tsx'];
	const ours = await librariesIn({ ...options(), entryPoints });
	const bare = await librariesIn({ ...options({ without: 'savings' }), entryPoints });
	expect(bare.filter(name => !ours.includes(name))).toEqual(['emoji-regex', 'string-width']);
	expect(ours.filter(name => !bare.includes(name))).toEqual([]);
	expect(bare).not.toContain('ws');
});
