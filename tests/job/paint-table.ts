import { readFile } from 'node:fs/promises';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { wanted_um } from '../../src/job/on-work.ts';
import { format, formatRange } from '../../src/trade/shown.ts';
import { faceName } from '../../src/words/say.ts';

const head = [
	'face',
	'film wanted, wet',
	'leaves the gun',
	'lands',
	'trigger',
	'with turns',
	'film over the face',
];

/** One coat of each face: film wanted, paint, time, film, as a table of a README. @param coat counted from 1 */
export function paintTable({ faces, materials, units }: Job, coat: number): string {
	const rows = faces.flatMap(({ id, coats }) => {
		const its = coats[coat - 1];
		const material = its && materials[its.material];
		const wet_um = material && wanted_um(material, its.kind);
		if (!its || !wet_um) return [];
		const { landed_mL = 0, trigger_s = 0, min_um = 0, peak_um = 0 } = its;
		return [
			[
				faceName(id),
				format(wet_um, 'film', units),
				format(its.volume_mL, 'volume', units),
				format(landed_mL, 'volume', units),
				`${trigger_s.toFixed(1)} s`,
				`${its.spray_s.toFixed(1)} s`,
				formatRange(min_um, peak_um, 'film', units),
			],
		];
	});
	return [head, head.map(() => '---'), ...rows].map(cells => `| ${cells.join(' | ')} |`).join('\n');
}

/** The job of a sheet that must load. */
export async function jobIn(file: string): Promise<Job> {
	const parsed = parseJob(await readFile(file, 'utf8'), file);
	if (!parsed.ok) throw new Error(`${file} does not load`);
	return parsed.job;
}
