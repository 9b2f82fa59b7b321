import { expect, test } from 'vitest';
import { type Alteration, altered, complaintsOf, placeOf } from './altered.ts';

const cases: Alteration[] = [
	[
		'a bare number for a time',
		'wet edge: 3 min',
		'wet edge: 3',
		'\n    wet the tip: 20',
		/wet edge: found "3"; a unit is missing: write a time as in "45 min"$/,
	],
	[
		'a bare number for a length',
		'fan: 8 in #',
		'fan: 8 #',
		' # height of the fan',
		/gun, fan: found "8"; a unit is missing/,
	],
	[
		'a bare number for a film',
		'film: 1.3 mil',
		'film: 1.3',
		' }\n    sags above: 5',
		/film: found "1.3"; a unit is missing/,
	],
	[
		'a bare number in a size',
		'30 in x 14 in',
		'30 in x 14',
		'\n        after: [lip]',
		/size: found "30 in x 14"; a unit is missing/,
	],
	[
		'a negative area',
		'size: 24 in x 20 in',
		'area: -2 m2',
		'-2 m2',
		/area: found "-2 m2"; an area cannot be negative$/,
	],
	[
		'a zero area',
		'size: 24 in x 20 in',
		'area: 0 m2',
		'0 m2',
		/area: found "0 m2"; allowed: more than 0, up to 1000 m2$/,
	],
	['minus zero', 'size: 24 in x 20 in', 'area: -0 m2', '-0 m2', /area: found "-0 m2"; allowed: more than 0/],
	[
		'a number past all measure',
		'size: 24 in x 20 in',
		'area: 1e308 m2',
		'1e308',
		/area: found "1e308 m2"; allowed: more than 0, up to 1000 m2$/,
	],
	['a number past the machine', 'size: 24 in x 20 in', 'area: 1e999 m2', '1e999', /too large a number/],
	['no number', 'size: 24 in x 20 in', 'area: NaN', 'NaN', /area: found "NaN"; an area begins with a number/],
	[
		'not a number for YAML',
		'place: 3',
		'place: .nan',
		'.nan',
		/place: found ".nan"; allowed: a number from 1 to 10000$/,
	],
	['a number in another base', 'place: 3', 'place: 0x1F', '0x1F', /place: found "0x1F"; allowed: a number/],
	['a part of a place', 'place: 3', 'place: 7.25', '7.25', /place: found "7.25"; allowed: a whole number$/],
	['a decimal comma', '29 psi', '29,5 psi', ',5 psi', /decimals with a point/],
	[
		'nothing',
		'wet edge: 3 min',
		'wet edge:',
		'\n    wet the tip: 20',
		/wet edge: found nothing; one value is wanted$/,
	],
	[
		'a list for one value',
		'wet edge: 3 min',
		'wet edge: [3 min]',
		'[3 min]',
		/wet edge: found a list; one value is wanted$/,
	],
	[
		'a range that falls',
		'58 to 95 °F',
		'95 to 58 °F',
		'58 °F, hum',
		/limits, air: .*the second must be more/,
	],
	[
		'paint limits that fall',
		'limits: { air: 58 to 95 °F, humidity',
		'limits: { air: 58 to 95 °F, paint: 90 to 60 °F, humidity',
		'60 °F, humidity',
		/limits, paint: .*the second must be more/,
	],
	[
		'a paint limit alone',
		'limits: { air: 58 to 95 °F, humidity',
		'limits: { air: 58 to 95 °F, paint: 60 °F, humidity',
		'60 °F, humidity',
		/limits, paint: .*a range is wanted/,
	],
	[
		'flow cup seconds for a paint that may not be sprayed so cold',
		'runs: 23 to 28 s }',
		'runs: 23 to 28 s, at: 50 °F }',
		'50 °F }',
		/cup, at: its limits allow no paint of that temperature; mend one of them$/,
	],
	[
		'flow cup seconds at no temperature',
		'runs: 23 to 28 s }',
		'runs: 23 to 28 s, at: soon }',
		'soon }',
		/cup, at: found "soon"; a temperature begins with a number/,
	],
	[
		'surface limits that fall',
		'58 to 95 °F, hum',
		'58 to 95 °F, surface: 90 to 50 °F, hum',
		'50 °F, hum',
		/limits, surface: .*the second must be more/,
	],
	[
		'half a range',
		'58 to 95 °F',
		'58 °F',
		'58 °F, hum',
		/limits, air: .*a range is wanted, as in "60 °F to 75 °F"$/,
	],
	[
		'a life at no temperature',
		'pot life: 4 h at 70 °F',
		'pot life: 4 h',
		'4 h # or all',
		/pot life: .*a time at a temperature is wanted/,
	],
	[
		'a life at a bare temperature',
		'pot life: 4 h at 70 °F',
		'pot life: 4 h at 70',
		' # or all that its data sheet gives',
		/pot life: .*a unit is missing: write a temperature/,
	],
	[
		'a ratio in words',
		'1:1 by volume',
		'one to one',
		'one to one',
		/ratio: found "one to one"; allowed: base:hardener/,
	],
	['a ratio of nothing', '1:1 by volume', '1:0 by volume', '1:0', /ratio: found "1:0 by volume"; allowed/],
	[
		'reducer without a measure',
		'reducer: 15%',
		'reducer: 15',
		'15 #',
		/reducer: found "15"; allowed: a share of base and hardener as in "15%"/,
	],
	['a transfer of nothing', '65% ± 5%', '0% ± 5%', '0% ±', /transfer: found "0% ± 5%"; allowed: 5% to 100%$/],
	[
		'a share over all',
		'humidity: 50%',
		'humidity: 150%',
		'150%',
		/shop, humidity: found "150%"; allowed: 0% to 100%$/,
	],
	['one number of feather', 'fan depth: 2 in', 'feather: [3]', '[3]', /gun, feather: two numbers are wanted/],
];

test.each(cases)('%s: the error stands at its place', (_what, from, to, mark, says) => {
	const text = altered(from, to);
	const said = complaintsOf(text);
	expect(said).toHaveLength(1);
	expect(said[0]).toMatch(says);
	expect(said[0]?.split(' ')[0]).toBe(placeOf(text, mark));
});
