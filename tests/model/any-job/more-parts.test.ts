import { expect, test } from 'vitest';
import { parseJob } from '../../../src/job/load.ts';
import { standardLists } from '../by-chance/sheets.ts';
import { checkDayFile } from '../checker/check.ts';
import { ownPass } from '../one-paint/own.ts';
import { playAnyJob } from './days.ts';
import { withMoreParts } from './more-parts.ts';
import { sheetBy } from './sheet.ts';

/** Products of four and five parts by chance, beside the independent checker and the second bookkeeping of paint. */

const seeds = Array.from({ length: 8 }, (_, seed) => seed);

test('days by chance with such products keep every rule, and their accelerators and flatteners are poured', async () => {
	const lists = await standardLists();
	const [says, poured]: [string[], Set<string>] = [[], new Set()];
	for (const seed of seeds) {
		const { days } = playAnyJob(lists, seed, { mostDays: 1, sheet: text => withMoreParts(text, seed) });
		for (const { bytes, records } of days) {
			says.push(...checkDayFile(bytes).map(({ property, says }) => `seed ${seed}: ${property}: ${says}`));
			for (const record of records) if (record.type === 'batch.poured') poured.add(record.component);
		}
	}
	expect(says).toEqual([]);
	expect([...poured].sort()).toEqual(['accelerator', 'base', 'flattener', 'hardener', 'reducer']);
}, 240_000);

test('paint of every coat is what a bookkeeping of its own works out, accelerator and flattener counted in', () => {
	let coats = 0;
	for (const seed of seeds) {
		const parsed = parseJob(withMoreParts(sheetBy(seed), seed), 'sheet.yaml');
		if (!parsed.ok) continue;
		for (const face of parsed.job.faces)
			for (const coat of face.coats) {
				const own = ownPass(parsed.job, face, coat);
				if (own.pull_s < 0.3) continue;
				expect(coat.volume_mL / own.emitted_mL).toBeCloseTo(1, 6);
				coats++;
			}
	}
	expect(coats).toBeGreaterThan(20);
});
