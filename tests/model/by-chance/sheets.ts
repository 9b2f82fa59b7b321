import type { Checklist } from '../../../src/job/checklist.ts';
import type { Job } from '../../../src/job/job.ts';
import { loadLists } from '../../../src/job/lists.ts';
import { parseJob } from '../../../src/job/load.ts';
import { smallJob } from '../../day/small-job.ts';

/** Four small jobs that together come by every rule of a day. Invented, at the Pump Yard workshop. */

const head = (cup: string) => `units: metric
shop: { air: 21 °C, humidity: 50%, day: 16 h }
gun:
  pressure: 200 kPa
  fan: 200 mm
  fan depth: 50 mm
  distance: 150 mm
  overlap: 50%
  flow: 200 mL/min
  speed: 350 mm/s
  transfer: 65%
  cup: { holds: ${cup}, kind: gravity }
`;

const primer = `  primer:
    name: Grey primer
    isocyanate: no
    breathing: { spraying: filter mask with A2-P3 }
    ratio: 1:1 by volume
    reducer: 15%
    order: [stir, base, hardener, reducer, stand, strain, cup]
    solids: 46%
    coats: { medium: { film: 25 um }, full: { film: 32 um } }
    sags above: 130 um
    pot life: 4 h at 21 °C
    standing: 15 min
    strainer: 190 micron
    flash: { from: 30 min, to: 2 h, at: 21 °C, touch: [tacky, dry] }
    wet edge: 3 min
    wet the tip: 20 min
    flush: 60 min
    recoat:
      - over: primer
        surface: 15 to 30 °C
        windows: [wait: 0 to 30 min, spray: 30 min to 2 h, scuff: 2 h to 5 h, sand: from 5 h]
    sand after: [3 h at 18 °C, 2 h at 27 °C]
    grit: 320
    cup: { kind: iso4, runs: 20 to 26 s }
    limits: { air: 12 to 35 °C, humidity: 80%, over dew point: 3 °C }
`;

const topcoat = `  topcoat:
    name: Cream topcoat
    isocyanate: yes
    ratio: 2:1:1 by volume
    order: [stir, base, hardener, reducer, strain]
    solids: 50%
    coats: { tack: { film: 12 um }, full: { film: 28 um } }
    sags above: 95 um
    pot life: 90 min at 21 °C
    standing: none
    strainer: 125 micron
    flash: { from: 20 min, to: 75 min, at: 21 °C, touch: tacky }
    wet edge: 20 s
    wet the tip: 10 min
    flush: 30 min
    recoat:
      - over: topcoat
        surface: 15 to 30 °C
        windows: [wait: 0 to 20 min, spray: 20 min to 75 min, wait: 75 min to 195 min, spray: 195 min to 12 h, sand: from 12 h]
    sand after: 8 h at 21 °C
    grit: 400
    limits: { air: 15 to 32 °C, humidity: 75%, over dew point: 3 °C }
`;

const overPrimer = topcoat.replace(
	'    recoat:',
	`    recoat:
      - over: primer
        surface: 15 to 30 °C
        windows: [wait: 0 to 1 h, spray: 1 h to 2 h, scuff: 2 h to 4 h, sand: from 4 h]`,
);

const edges = (part: string, more = '') => `  - part: ${part}
    faces:
      - { face: edges, attitude: upright, stroke: up and down, size: 5 cm x 200 cm${more} }
      - { face: flat, attitude: upright, stroke: side to side, size: 60 cm x 50 cm, after: [edges] }
`;

/** Three coats through a lifting zone, by a cup that must be filled again. */
const lifting = `name: Lifting zone
${head('150 mL')}materials:
${topcoat}stages:
  - { spray: topcoat, coats: [tack, full, full] }
order: as written
parts:
${edges('lid')}  - part: rail
    faces:
      - { face: front, attitude: upright, stroke: side to side, size: 150 cm x 12 cm }
`;

/** Two materials in one day, with work before each and a wait between. */
const twoStages = `name: Primer and topcoat
${head('600 mL')}materials:
${primer}${overPrimer}stages:
  - wipe
  - tack
  - { spray: primer, coats: [medium] }
  - wait: 150 min
  - sand: 320 grit
  - wipe
  - tack
  - { spray: topcoat, coats: [tack, full] }
order: fewest turns
parts:
${edges('left door')}${edges('right door')}`;

/** Fans of two heights, a leaned gun, coats across each other, scuffing by the table. */
const leaned = `name: Leaned and crossed
${head('400 mL')}materials:
${primer}stages:
  - scuff
  - { spray: primer, coats: [medium, full] }
order: wettest edge
parts:
${edges('arch', ', tilt: left, fan: 120 mm')}  - part: box
    faces:
      - { face: top, attitude: flat, near edge: front, stroke: to and fro, crosswise: [2], size: 50 cm x 40 cm }
`;

const sheet = (text: string): Job => {
	const parsed = parseJob(text, 'sheet.yaml');
	if (!parsed.ok) throw new Error(parsed.errors.map(({ says }) => says).join('; '));
	return parsed.job;
};

/** The lists that come with the program. */
export async function standardLists(): Promise<Checklist[]> {
	const listed = await loadLists({ lists: [] }, 'sheet.yaml');
	if (!listed.ok) throw new Error(listed.errors.map(({ says }) => says).join('; '));
	return listed.lists;
}

export const sheets = (): Job[] => [smallJob(), ...[lifting, twoStages, leaned].map(sheet)];
