import { expect, test } from 'vitest';
import { type Alteration, altered, complaintsOf, placeOf } from './altered.ts';

const cases: Alteration[] = [
	[
		'a misspelt key',
		'pot life: 4 h',
		'pot lief: 4 h',
		'pot lief',
		/found "pot lief"; allowed: .*; nearest: pot life$/,
	],
	[
		'a misspelt key at the top',
		'stages:',
		'stagse:',
		'stagse',
		/^\S+ key: found "stagse"; .*nearest: stages$/,
	],
	[
		'a misspelt key of a face',
		'attitude: upright #',
		'atitude: upright #',
		'atitude',
		/face front, key: .*nearest: attitude$/,
	],
	[
		'a misspelt word',
		'attitude: flat',
		'attitude: flatt',
		'flatt',
		/face top, attitude: found "flatt"; allowed: upright, flat, underside; nearest: flat$/,
	],
	[
		'a misspelt stroke',
		'stroke: to and fro',
		'stroke: too and fro',
		'too and',
		/stroke: found "too and fro".*nearest: to and fro$/,
	],
	['a misspelt unit', '29 psi', '29 pso', 'pso', /gun, pressure: .*unknown unit "pso".*nearest unit "psi"/],
	[
		'a misspelt mixing step',
		'hardener, reducer, stand',
		'hardner, reducer, stand',
		'hardner',
		/order: found "hardner"; .*nearest: hardener$/,
	],
	[
		'a misspelt coat',
		'coats: [medium, full]',
		'coats: [medium, ful]',
		'ful]',
		/stages, coats: found "ful"; .*nearest: full$/,
	],
	[
		'an unknown material',
		'spray: topcoat',
		'spray: topcaot',
		'topcaot',
		/stage, spray: found "topcaot"; allowed: primer, topcoat; nearest: topcoat$/,
	],
	[
		'an unknown material under',
		'- over: topcoat',
		'- over: topcot',
		'topcot',
		/recoat, over: found "topcot"; .*nearest: topcoat$/,
	],
	[
		'an unknown face in after',
		'after: [lip]',
		'after: [lips]',
		'lips',
		/face outside, after: found "lips"; .*nearest: lip$/,
	],
	[
		'an unknown part at the extractor',
		'at: canopy rail',
		'at: canopy rial',
		'canopy rial',
		/extractor at: found "canopy rial"; .*nearest: canopy rail$/,
	],
	[
		'an unknown stage',
		'  - wipe\n  - tack\n  - spray: primer',
		'  - wiep\n  - tack\n  - spray: primer',
		'wiep',
		/stages: found "wiep"; .*nearest: wipe$/,
	],
	[
		'a word for yes',
		'isocyanate: yes',
		'isocyanate: true',
		'true',
		/isocyanate: found "true"; allowed: yes, no/,
	],
];

test.each(cases)('%s: the error stands at its place', (_what, from, to, mark, says) => {
	const text = altered(from, to);
	const said = complaintsOf(text);
	expect(said).toHaveLength(1);
	expect(said[0]).toMatch(says);
	expect(said[0]?.split(' ')[0]).toBe(placeOf(text, mark));
});
