import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { eventTypes } from '../../src/day/records.ts';
import { readmeOfCharts, tableOfStates } from './table.ts';

test('beside the charts stands what each state does with each event; `npm run table` writes it anew', () => {
	expect(readFileSync('machines/README.md', 'utf8')).toBe(readmeOfCharts());
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
