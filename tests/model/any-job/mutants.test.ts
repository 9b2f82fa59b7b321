import { expect, test } from 'vitest';
import { standardLists } from '../by-chance/sheets.ts';
import { caughtAlone, foundUnder, ruleMutants } from './mutants.ts';

test.each(ruleMutants)(
	'property $property alone catches: $what ($file)',
	async mutant => {
		const says = await foundUnder(mutant, await standardLists());
		expect(caughtAlone(mutant, says), says.join('\n')).not.toBeNull();
	},
	600_000,
);

test('a change whose text is gone from its file is told, and passes for nothing', async () => {
	const gone = {
		property: 16,
		file: 'src/day/prep.ts',
		what: 'nothing',
		from: 'no such words',
		to: '',
	} as const;
	await expect(foundUnder(gone, [])).rejects.toThrow('has not just one');
});
