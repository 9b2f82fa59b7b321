import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { everyCommand } from '../cli/commands.ts';
import { version } from '../cli/package.ts';
import { builtInForBuild } from '../job/lists.ts';
import { licencesOf, packagesIn } from './licences.ts';
import { manPage } from './man-page.ts';

/**
 * Puts beside the bundled program its manual page, the lists as they were read, and the licences of what is in it.
 * @param folder where the program lies
 * @param files that it was bundled of
 */
export async function finish(folder: string, files: readonly string[]): Promise<void> {
	const put = (name: string, text: string) => writeFileSync(join(folder, name), text);
	put('licences.txt', licencesOf(packagesIn(files)));
	put('fanwise.1', manPage(await everyCommand(), version()));
	put('lists.json', JSON.stringify(builtInForBuild()));
}
