import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { everyCommand } from '../cli/commands.ts';
import { version } from '../cli/package.ts';
import { builtInForBuild } from '../job/lists.ts';
import { licencesOf, packagesIn } from './licences.ts';
import { manPage } from './man-page.ts';

/** Run by the build in the project's folder once the program is bundled: the manual page, the lists as they were read, and what it was bundled of. */

const meta = 'dist/meta.json';
const { inputs } = JSON.parse(readFileSync(meta, 'utf8')) as { inputs: Record<string, unknown> };
writeFileSync('dist/licences.txt', licencesOf(packagesIn(Object.keys(inputs))));
writeFileSync('dist/fanwise.1', manPage(await everyCommand(), version()));
writeFileSync('dist/lists.json', JSON.stringify(builtInForBuild()));
for (const path of [meta, 'dist/finish.js']) rmSync(path);
