import type { Checklist } from '../../../src/job/checklist.ts';
import type { Job } from '../../../src/job/job.ts';
import { loadLists } from '../../../src/job/lists.ts';
import { parseJob } from '../../../src/job/load.ts';
import { rehearsed } from '../rehearsed.ts';

/** Small sheets of the Pump Yard workshop, each with one thing that a day once went wrong by. Invented. */

const head = (units: string) => `name: Serving hatch
units: ${units}
shop: { air: 21 °C, humidity: 50%, day: 16 h }
gun:
  pressure: 2 bar
  fan: 200 mm
  fan depth: 50 mm
  distance: 150 mm
  overlap: 50%
  flow: 200 mL/min
  speed: 350 mm/s
  transfer: 65%
  cup: { holds: 600 mL, kind: gravity }
`;

export type Paint = {
	ratio?: string;
	reducer?: string;
	order?: string;
	potLife?: string;
	standing?: string;
	longestFlash?: string;
	/** Over itself. */
	windows?: string;
};

const material = (name: string, paint: Paint, overPrimer = '') => `  ${name}:
    name: Pump Yard ${name}
    isocyanate: yes
    ratio: ${paint.ratio ?? '4:1 by volume'}
    reducer: ${paint.reducer ?? 'none'}
    order: [${paint.order ?? 'stir, base, hardener, cup'}]
    solids: 50%
    coats: { medium: { film: 22 um } }
    sags above: 130 um
    pot life: ${paint.potLife ?? '4 h at 21 °C'}
    standing: ${paint.standing ?? 'none'}
    strainer: none
    flash: { from: 20 min, to: ${paint.longestFlash ?? '2 h'}, at: 21 °C, touch: tacky }
    wet edge: 60 s
    wet the tip: 20 min
    flush: 60 min
    recoat:${overPrimer}
      - over: ${name}
        surface: 10 to 35 °C
        windows: [${paint.windows ?? 'wait: 0 to 20 min, spray: 20 min to 8 h, scuff: 8 h to 24 h, sand: from 24 h'}]
    sand after: 8 h at 21 °C
    grit: 400
    cup: { kind: iso4, runs: 20 to 26 s }
    limits: { air: 12 to 35 °C, humidity: 80%, over dew point: 3 °C }
`;

const lifting = `
      - over: primer
        surface: 10 to 35 °C
        windows: [wait: 0 to 20 min, spray: 20 min to 3 h, wait: 3 h to 16 h, sand: from 16 h]`;

const hatch = `  - part: hatch
    place: 1
    faces:
      - { face: outside, attitude: upright, stroke: side to side, size: 500 mm x 300 mm }
      - { face: edges, attitude: upright, stroke: up and down, size: 500 mm x 300 mm }
`;
const shelf = `  - part: shelf
    place: 2
    faces:
      - { face: front, attitude: upright, stroke: side to side, size: 500 mm x 300 mm }
`;

type Sheet = { units?: string; primer?: Paint; stages: string; parts?: 'both' | 'shelf' };

/** The text of a sheet of a primer; a topcoat that lifts it for hours lies beside it where a stage sprays one. */
export const sheetOf = ({ units = 'metric', primer = {}, stages, parts = 'both' }: Sheet): string =>
	`${head(units)}materials:
${material('primer', primer)}${stages.includes('topcoat') ? material('topcoat', {}, lifting) : ''}stages:
${stages}order: as written
parts:
${parts === 'both' ? hatch : ''}${shelf}`;

/** Coats of primer with nothing between them. */
export const coats = (count: number): string =>
	`  - { spray: primer, coats: [${Array(count).fill('medium').join(', ')}] }\n`;

export function jobOf(sheet: Sheet): Job {
	const parsed = parseJob(sheetOf(sheet), 'hatch.yaml');
	if (!parsed.ok) throw new Error(parsed.errors.map(({ says }) => says).join('; '));
	return parsed.job;
}

export async function standardLists(): Promise<Checklist[]> {
	const listed = await loadLists({ lists: [] }, 'hatch.yaml');
	if (!listed.ok) throw new Error(listed.errors.map(({ says }) => says).join('; '));
	return listed.lists;
}

/** A day of a sheet, with the lists that come with the program. */
export const dayOf = async (sheet: Sheet, more: Parameters<typeof rehearsed>[0] = {}) =>
	rehearsed({ job: jobOf(sheet), lists: await standardLists(), ...more });
