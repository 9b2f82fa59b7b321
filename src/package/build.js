import { rmSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { filesIn, page, program } from './bundle.js';
import { bundled } from './bundled.js';
import { isBuilt, stamp } from './sources.js';

/** `npm run build`: the program as it ships, into `dist`. With `--if-stale`, only where `dist` is of other sources. */
if (!(process.argv.includes('--if-stale') && isBuilt('.'))) {
	const made = stamp('.');
	rmSync('dist', { recursive: true, force: true });
	const bundled_of = (await Promise.all([program, page].map(build))).flatMap(({ metafile }) =>
		filesIn(metafile),
	);
	const { finish } = await import(pathToFileURL(await bundled('src/package/finish.ts')).href);
	await finish('dist', bundled_of);
	writeFileSync(...made);
}
