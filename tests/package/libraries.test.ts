import { readFileSync } from 'node:fs';
import { build } from 'esbuild';
import { expect, test } from 'vitest';

/** Every library of which something is in the program as it is built. */
async function bundled(): Promise<string[]> {
	const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: { build: string } };
	expect(scripts.build).toContain('fanwise=src/cli/fanwise.ts');
	const { metafile } = await build({
		entryPoints: ['src/cli/fanwise.ts'],
		bundle: true,
		splitting: true,
		metafile: true,
		write: false,
		outdir: 'nowhere',
		platform: 'node',
		target: 'node20',
		format: 'esm',
		minify: true,
		define: { 'process.env.NODE_ENV': '"production"' },
		alias: { 'react-devtools-core': './src/screen/no-devtools.cjs' },
		logLevel: 'silent',
	});
	const inside = Object.values(metafile.outputs).flatMap(({ inputs }) =>
		Object.entries(inputs).flatMap(([file, { bytesInOutput }]) => (bytesInOutput > 0 ? [file] : [])),
	);
	const names = inside.flatMap(file => /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1] ?? []);
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
	expect(told.sort()).toEqual(await bundled());
	const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
		dependencies?: Record<string, string>;
		devDependencies: Record<string, string>;
	};
	expect(dependencies ?? {}).toEqual({});
	for (const name of withReason) expect(Object.keys(devDependencies)).toContain(name);
});
