import { describe, expect, test } from 'vitest';
import { gearSaid, wantsSuppliedAir } from '../../src/job/breathing.ts';
import { parseJob } from '../../src/job/load.ts';
import { altered, complaintsOf, exampleText, placeOf } from './altered.ts';

/** The breathing gear that a sheet names, as the safety data sheet of its material asks for it. */

const topcoat = 'breathing: { mixing: supplied air, spraying: supplied air }';

function materialsOf(text: string) {
	const loaded = parseJob(text, 'cart.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('; '));
	return loaded.job.materials;
}

test('the example names a mask with its cartridge for the primer, and supplied air for the topcoat', () => {
	const { primer, topcoat: over } = materialsOf(exampleText);
	expect(primer?.breathing?.spraying).toEqual({ gear: 'filter-mask', cartridge: 'A2-P3' });
	expect(gearSaid(primer?.breathing?.sanding)).toBe('filter mask with P3');
	expect(over?.breathing).toEqual({
		mixing: { gear: 'supplied-air' },
		spraying: { gear: 'supplied-air' },
		sanding: null,
	});
});

test('a sheet that names nothing has nothing named, and only supplied air passes', () => {
	const { topcoat: over } = materialsOf(altered(`    ${topcoat}\n`, ''));
	expect(over?.breathing).toEqual({ mixing: null, spraying: null, sanding: null });
	expect(gearSaid(over?.breathing?.mixing)).toBe(null);
});

describe('only supplied air passes at spraying', () => {
	const mask = { gear: 'filter-mask', cartridge: 'A2-P3' } as const;
	const rest = { mixing: null, sanding: null };
	test.each([
		['with isocyanate, whatever is named', true, { ...rest, spraying: mask }, true],
		['where no cartridge is named', false, { ...rest, spraying: null }, true],
		['where supplied air is named', false, { ...rest, spraying: { gear: 'supplied-air' as const } }, true],
		['not where a mask is named with its cartridge', false, { ...rest, spraying: mask }, false],
		['not on an older day, whose sheet could name none', false, undefined, false],
	])('%s', (_what, isocyanate, breathing, wanted) => {
		expect(wantsSuppliedAir({ isocyanate, ...(breathing && { breathing }) })).toBe(wanted);
	});
});

/** NIOSH 96-111; HSE, motor vehicle repair pages: no filter for isocyanate. */
test.each(['mixing', 'spraying', 'sanding'])('a filter mask for isocyanate is refused at %s', work => {
	const text = altered(topcoat, `breathing: { ${work}: filter mask with A2-P3 }`);
	expect(complaintsOf(text)).toEqual([
		`${placeOf(text, 'filter mask with A2-P3 }')} material topcoat, breathing, ${work}: found a filter mask; with isocyanate only supplied air, for no smell warns of it`,
	]);
});

test.each(['filter mask', 'filter mask with ', 'mask', 'none'])(
	'"%s" is refused, and what may be written is said',
	written => {
		const [first = ''] = complaintsOf(altered('spraying: filter mask with A2-P3', `spraying: "${written}"`));
		expect(first).toMatch(
			/primer, breathing, spraying: .*supplied air, or a filter mask with the cartridge that the safety data sheet names/,
		);
	},
);
