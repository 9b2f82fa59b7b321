import { readShelf } from '../../../src/job/shelf.ts';
import { shelf as folder } from '../chairs/long-form.ts';

/** Jobs of the Pump Yard workshop, by the answers that ask for them. */

const [epoxy, green, slate] = ['grey epoxy', 'moss green satin', 'slate satin'];
const filled = readShelf(folder);
/** With a second colour, like the first in all but its name. */
export const shelf = {
	...filled,
	files: filled.files.flatMap(file =>
		file.name === green
			? [
					file,
					{
						...file,
						name: slate,
						path: file.path.replace('moss-green', 'slate'),
						text: file.text.replaceAll(green, slate),
					},
				]
			: [file],
	),
};

export const jobs = {
	'six kitchen doors, both sides, two colours': [
		...['Six kitchen doors', '6 x door', 'door both sides', '72 x 40 x 1.9 cm', 'on points', ''],
		...[epoxy, 'all', '2 full', 'large', green, 'inside, edges', 'tack, full', ''],
		...[slate, 'outside', '2 full', '', '', '', 'as offered', '2027-03-02 08:00', 'WRITE'],
	],
	'round parts': [
		...['Stool legs and rungs', '12 x leg', 'spindle', '45 x 3.5 cm', 'hanging'],
		...['4 x ring', 'tube frame', '22 mm tube, 1.1 m', 'hanging', ''],
		...[epoxy, 'all', 'full', 'large', green, 'all', 'tack, 2 full', '', '', '', 'as offered', ''],
		'WRITE',
	],
	'a single panel': [
		...['Serving hatch', 'hatch', 'panel', '60 x 45 x 2 cm', 'standing', ''],
		...[epoxy, 'all', '2 full', 'large', green, 'all', 'tack, full', '', '', '', 'as offered', ''],
		'WRITE',
	],
	'one face of one part': [
		...['Flag pole', 'pole', 'spindle', '200 x 4 cm', 'hanging', ''],
		...[epoxy, '2 full', 'large', green, 'tack, full', '', '', 'as offered', '-', 'WRITE'],
	],
} satisfies Record<string, string[]>;
