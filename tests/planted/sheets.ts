import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';

/** Four sheets, invented, at the Pump Yard workshop: what the days with a planted cause are sprayed by. */

const head = (name: string, cup: string) => `name: ${name}
units: metric
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

/** Air by the handbook: 60 to 95 °F, 80 % (FAA-H-8083-31 ch. 8, seen in a mirror). */
const limits = 'limits: { air: 16 to 35 °C, humidity: 80%, over dew point: 3 °C }';

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
    pot life: 55 min at 21 °C
    standing: 15 min
    strainer: 190 micron
    flash: { from: 25 min, to: 2 h, at: 21 °C, touch: [tacky, dry] }
    wet edge: 3 min
    wet the tip: 20 min
    flush: 45 min
    recoat:
      - over: primer
        surface: 14 to 36 °C
        windows: [wait: 0 to 25 min, spray: 25 min to 3 h, scuff: 3 h to 8 h, sand: from 8 h]
    sand after: [3 h at 18 °C, 2 h at 27 °C]
    grit: 320
    cup: { kind: iso4, runs: 20 to 28 s }
    ${limits}
`;

const topcoat = (over: string) => `  topcoat:
    name: Cream topcoat
    isocyanate: yes
    breathing: { spraying: supplied air }
    ratio: 2:1:1 by volume
    order: [stir, base, hardener, reducer, strain, cup]
    solids: 50%
    coats: { tack: { film: 12 um }, medium: { film: 22 um }, full: { film: 28 um } }
    sags above: 95 um
    pot life: 35 min at 21 °C
    standing: none
    strainer: 125 micron
    flash: { from: 15 min, to: 90 min, at: 21 °C, touch: tacky }
    wet edge: 60 s
    wet the tip: 15 min
    flush: 30 min
    recoat:
${over}      - over: topcoat
        surface: 14 to 36 °C
        windows: [wait: 0 to 15 min, spray: 15 min to 2 h, wait: 2 h to 12 h, sand: from 12 h]
    sand after: 16 h at 21 °C
    grit: 600
    cup: { kind: iso4, runs: 18 to 24 s }
    ${limits}
`;

const overPrimer = `      - over: primer
        surface: 14 to 36 °C
        windows: [wait: 0 to 40 min, spray: 40 min to 6 h, scuff: 6 h to 24 h, sand: from 24 h]
`;

const flatFace = (name: string, size: string) =>
	`      - { face: ${name}, attitude: upright, stroke: side to side, size: ${size} }\n`;
const edgeFace = (name: string, size: string) =>
	`      - { face: ${name}, attitude: upright, stroke: up and down, size: ${size} }\n`;
const lyingFace = (name: string, size: string) =>
	`      - { face: ${name}, attitude: flat, near edge: front, stroke: to and fro, size: ${size} }\n`;
const part = (name: string, ...faces: string[]) => `  - part: ${name}\n    faces:\n${faces.join('')}`;

const doors = ['left door', 'right door', 'hatch']
	.map(name => part(name, edgeFace('edges', '6 cm x 240 cm'), flatFace('outside', '60 cm x 70 cm')))
	.join('');
const counter =
	part('counter lid', edgeFace('edges', '5 cm x 300 cm'), lyingFace('top', '90 cm x 60 cm')) +
	part('shelf board', edgeFace('edges', '3 cm x 240 cm'), lyingFace('top', '80 cm x 40 cm')) +
	part('menu frame', flatFace('front', '70 cm x 50 cm')) +
	part('canopy rail', flatFace('front', '150 cm x 12 cm'));
const fronts = ['left', 'middle', 'right']
	.map(name => part(`${name} drawer`, flatFace('front', '50 cm x 30 cm'), edgeFace('edges', '3 cm x 150 cm')))
	.join('');
const cart =
	part('cart side', flatFace('outside', '90 cm x 60 cm'), edgeFace('posts', '6 cm x 160 cm')) +
	part('tool box', flatFace('front', '45 cm x 40 cm'), lyingFace('lid', '45 cm x 30 cm')) +
	part('wheel cover', flatFace('outside', '60 cm x 25 cm'));

const clean = '  - wipe\n  - tack\n';

const texts: readonly string[] = [
	`${head('Cart doors in cream', '260 mL')}materials:\n${topcoat('')}stages:\n${clean}  - { spray: topcoat, coats: [tack, medium, full] }\norder: as written\nparts:\n${doors}`,
	`${head('Counter and frame in grey', '240 mL')}materials:\n${primer}stages:\n${clean}  - { spray: primer, coats: [medium, full] }\norder: fewest turns\nparts:\n${counter}`,
	`${head('Drawers in cream', '150 mL')}materials:\n${topcoat('')}stages:\n${clean}  - { spray: topcoat, coats: [medium, full] }\norder: as written\nparts:\n${fronts}`,
	`${head('Cart side, grey then cream', '240 mL')}materials:\n${primer}${topcoat(overPrimer)}stages:\n${clean}  - { spray: primer, coats: [full] }\n  - wipe\n  - tack\n  - { spray: topcoat, coats: [medium, full] }\norder: fewest turns\nparts:\n${cart}`,
];

export const sheetCount = texts.length;

const read = new Map<number, Job>();

/** @param nth from 0 up to below `sheetCount` */
export function sheetJob(nth: number): Job {
	const known = read.get(nth);
	if (known) return known;
	const parsed = parseJob(texts[nth] ?? '', 'sheet.yaml');
	if (!parsed.ok) throw new Error(parsed.errors.map(({ says }) => says).join('; '));
	read.set(nth, parsed.job);
	return parsed.job;
}
