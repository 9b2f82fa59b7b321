import type { Job } from '../../../src/job/job.ts';
import { parseJob } from '../../../src/job/load.ts';
import { sheetBy } from '../any-job/sheet.ts';
import { type Chance, chanceOf } from '../keys/chance.ts';

/** Job sheets by chance whose gun differs in all that its paint goes by. */

function gunBy(chance: Chance): Record<string, string> {
	return {
		fan: chance.pick(['150 mm', '200 mm', '250 mm']),
		feather: chance.pick(['3, 3', '2, 3', '4, 2.5']),
		overlap: chance.pick(['40%', '50%', '60%']),
		flow: chance.pick(['140 mL/min ± 3%', '200 mL/min', '260 mL/min ± 10%']),
		transfer: chance.pick(['50% ± 10%', '65% ± 5%', '40% ± 6%', '70%']),
		lead: chance.pick(['50 mm', '60 mm', '80 mm']),
		turn: chance.pick(['0.5 s', '0.8 s']),
		trigger: chance.pick(['released', 'released', 'held']),
		losses: chance.pick([
			'{ strainer: 10 mL, pot: 10 mL, gun: 20 mL, burst: 1 s }',
			'{ strainer: 4 mL, pot: 15 mL, gun: 8 mL, burst: 0.5 s }',
			'{ strainer: none, pot: 6 mL, gun: 30 mL, burst: 2 s }',
		]),
		cup: `{ holds: ${chance.pick(['250 mL', '400 mL', '600 mL', '900 mL'])}, kind: gravity }`,
	};
}

/** The text of a sheet with another gun, and now and then another risk. */
function withGun(text: string, chance: Chance): string {
	const gun = Object.entries(gunBy(chance)).map(([key, value]) =>
		key === 'feather' ? `  feather: [${value}]\n` : `  ${key}: ${value}\n`,
	);
	const first = chance.pick(['', '', '  first line: half in\n', '  first line: on the edge\n']);
	const risk = chance.pick(['', 'risk: 5%\n', 'risk: 1%\n']);
	const block = `gun:\n  pressure: 200 kPa\n  distance: 150 mm\n  fan depth: 50 mm\n${gun.join('')}${first}`;
	return `${risk}${text.replace(/gun:\n[\s\S]*?(?=materials:)/, block)}`;
}

/** The first sheet of a seed that the program takes. */
export function jobBy(seed: number): Job {
	const chance = chanceOf(seed * 15_485_863 + 11);
	for (let draw = 0; draw < 50; draw++) {
		const parsed = parseJob(withGun(sheetBy(seed, draw), chance), 'sheet.yaml');
		if (parsed.ok) return parsed.job;
	}
	throw new Error(`no sheet of seed ${seed} is taken`);
}
