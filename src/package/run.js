import { pathToFileURL } from 'node:url';
import { bundled } from './bundled.js';

/** Runs a file of TypeScript in the project's folder: `node src/package/run.js FILE [WORDS …]`. */
const [node = '', , file, ...words] = process.argv;
if (file === undefined) throw new Error('name the file to run');
process.env.NODE_ENV ??= 'production';
const outfile = await bundled(file);
process.argv = [node, outfile, ...words];
await import(pathToFileURL(outfile).href);
