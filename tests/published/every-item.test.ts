import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

/** Every item that the program comes with has its source beside it, or says that it has none. */

const folder = 'checklists';
const lists = readdirSync(folder).filter(name => name.endsWith('.yaml') && name !== 'faults.yaml');

/** What a source is known by. */
const source =
	/\bCFR\b|\bWAC\b|NIOSH|HSE\b|MIL-HDBK|UFGS|TM 43-0139|TO 1-1-8|NAVEDTRA|ASTM|EN \d|common practice, no source|in before-spraying\.yaml/i;

/** The comment above each item, by its code. */
function commented(text: string): [string, string][] {
	const rows = text.split('\n');
	return rows.flatMap((row, index) => {
		const code = /^ {2}- code: (.+)$/.exec(row)?.[1];
		if (code === undefined) return [];
		const above = rows.slice(0, index);
		const from = above.findLastIndex(one => !one.startsWith('  #')) + 1;
		return [[code, above.slice(from).join(' ').replaceAll('  # ', '')]];
	});
}

test.each(lists)('%s', name => {
	const items = commented(readFileSync(join(folder, name), 'utf8'));
	expect(items.length).toBeGreaterThan(0);
	expect(items.filter(([, above]) => !source.test(above)).map(([code]) => code)).toEqual([]);
});

test('every item before spraying and at clean-up is named in the table of rules, but those that no rule speaks of', () => {
	const table = readFileSync(join(folder, 'README.md'), 'utf8');
	const codes = ['before-spraying', 'clean-up'].flatMap(name =>
		commented(readFileSync(join(folder, `${name}.yaml`), 'utf8')).map(([code]) => code),
	);
	const ofTheTrade = ['cap', 'waste', 'help'];
	expect(codes.filter(code => !ofTheTrade.includes(code) && !table.includes(`*${code}*`))).toEqual([]);
});
