import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { eventTypes } from '../../src/day/records.ts';
import { tableOfStates, withTable } from './table.ts';

test('DEVELOPERS.md says of each state and event what the chart does; `npm run table` writes it anew', () => {
	const text = readFileSync('DEVELOPERS.md', 'utf8');
	expect(text).toBe(withTable(text));
});

test('the table has a line for every type of record and a column for every state', () => {
	const lines = tableOfStates().split('\n').slice(2);
	expect(lines.map(line => line.split('|')[1]?.trim())).toEqual(eventTypes.map(type => `\`${type}\``));
	for (const line of lines) expect(line.split('|').length).toBe(12);
});

test('hold is taken everywhere but in closed, and leads nowhere but to hold', () => {
	const hold = tableOfStates()
		.split('\n')
		.find(line => line.includes('`break.began`'));
	expect(hold).toBe('| `break.began` | hold | hold | hold | hold | hold | hold | hold | = |  |');
});

test('a table that the chart has left behind is found out', () => {
	const text = withTable('# For developers\n');
	expect(withTable(text)).toBe(text);
	const old = text.replace('| spraying? |', '| spraying |');
	expect(old).not.toBe(text);
	expect(withTable(old)).toBe(text);
});
