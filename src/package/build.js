import { rmSync } from 'node:fs';
import { build } from 'esbuild';
import { filesIn, program } from './bundle.js';
import { taken } from './run.js';

/** `npm run build`: the program as it ships, into `dist`. */
rmSync('dist', { recursive: true, force: true });
const { metafile } = await build(program);
const { finish } = await taken('src/package/finish.ts');
await finish('dist', filesIn(metafile));
