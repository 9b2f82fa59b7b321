import { chairs } from './answered.ts';
import { jobs } from './workshop-jobs.ts';

/** The same jobs from an empty shelf: its shop, each material and each gun asked for on the way, as a person types them. */

const epoxy = [
	...['1:1 by volume', '15%', 'stir, base, hardener, reducer, stand, strain', '15 min', '4 h at 20 °C'],
	...['190 micron', 'full: 30 um', '130 um', '30 min to 8 h at 20 °C'],
	'grey epoxy, 15 to 30 °C: wait 0 to 30 min, spray 30 min to 8 h, scuff 8 h to 24 h, sand from 24 h',
	...['', '8 h at 20 °C', '6 h at 20 °C', '320', '3 min', '20 min', '60 min', '46%'],
	...['air: 12 to 35 °C, humidity: 80%, over dew point: 3 °C', 'no'],
	'mixing: filter mask with A2-P3, spraying: filter mask with A2-P3, sanding: filter mask with P3',
];
/** A colour, over the primer and over itself; another one is like it. Asked for on a job that turns nothing, no time to handle. */
const colour = (name: string) => [
	...['2:1 by volume', '10%', 'stir, base, hardener, reducer, strain', 'none'],
	...['3 h at 15 °C, 2 h at 20 °C, 1 h at 30 °C', '125 micron', 'tack: 12 um, full: 28 um', '95 um'],
	'15 min to 2 h at 20 °C',
	`${name}, 12 to 30 °C: wait 0 to 15 min, spray 15 min to 2 h, wait 2 h to 16 h, sand from 16 h`,
	'grey epoxy, 12 to 30 °C: wait 0 to 4 h, spray 4 h to 8 h, sand from 8 h',
	...['', '16 h at 20 °C', '', '', '2 min', '10 min', '30 min', '50%'],
	...['air: 12 to 32 °C, surface: 12 to 30 °C, humidity: 75%, over dew point: 3 °C', 'yes'],
	'mixing: supplied air, spraying: supplied air',
];
const isHandle = (answer: string) => answer === '6 h at 20 °C';
const shop = ['the Pump Yard workshop', 'metric', '20 °C', '50%', '07:30 to 17:30'];
const gun = (name: string) => ['NEW', name, '2 bar', '25 cm at 15 cm', '100 mL in 30 s', '600 mL gravity'];

/** Where a job names a material for the first time, its data sheet; where it names a gun, the two guns of the shop. */
function emptied(answers: readonly string[], { turns, after }: { turns: boolean; after: string }): string[] {
	const begins = answers.indexOf(after);
	const known = new Set<string>();
	let guns = 0;
	return answers.flatMap((answer, nth) => {
		if (nth < begins) return [answer];
		const lead = nth === begins ? shop : [];
		if (answer === 'grey epoxy' || answer.endsWith(' satin')) {
			const sheet = answer === 'grey epoxy' ? epoxy : colour(answer);
			const lines = turns
				? sheet
				: answer === 'grey epoxy'
					? sheet.filter(one => !isHandle(one))
					: sheet.toSpliced(14, 1);
			const isNew = !known.has(answer);
			known.add(answer);
			if (!isNew) return [answer];
			const like = answer === 'slate satin' ? [`${answer} like moss green satin`] : [answer, ...lines];
			return [...lead, 'NEW', ...like];
		}
		const isGun = answer === 'large' || (guns === 1 && answer === '');
		if (!isGun) return [answer];
		return gun(guns++ === 0 ? 'large' : 'small');
	});
}
const of = (answers: readonly string[], turns: boolean) => emptied(answers, { turns, after: 'grey epoxy' });

export const fromEmpty = {
	'eight chairs': of(chairs, true),
	'six kitchen doors': of(jobs['six kitchen doors, both sides, two colours'], true),
	'round parts': of(jobs['round parts'], false),
	'a single panel': of(jobs['a single panel'], false),
};

/** Letters and Enters at 30 words a minute, five letters a word; min. */
export const minutesOf = (answers: readonly string[]): number =>
	answers.reduce((sum, answer) => sum + answer.length + 1, 0) / (30 * 5);
