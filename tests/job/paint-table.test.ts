import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { jobIn, paintTable } from './paint-table.ts';

const root = join(import.meta.dirname, '../..');

test('the table of the README is what the example sheet comes to', async () => {
	const job = await jobIn(join(root, 'checklists/example/coffee-cart.yaml'));
	const readme = await readFile(join(root, 'README.md'), 'utf8');
	const [found] = /\| face \| film.*\n(?:\|.*\n)*/.exec(readme) ?? [];
	const table = paintTable(job, 1);
	expect(table.split('\n')).toHaveLength(2 + job.faces.length);
	expect(found?.trimEnd()).toBe(table);
});
