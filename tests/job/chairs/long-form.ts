import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** The eight chairs as a sheet that names nothing: every part, face and material written out. */

export const shortSheet = join(import.meta.dirname, 'eight-chairs.yaml');
export const shelf = join(import.meta.dirname, 'shelf');

/** What a file of the shelf says behind its name, moved in by so many columns. */
const bodyOf = (path: string, by: number): string =>
	readFileSync(join(shelf, path), 'utf8')
		.trimEnd()
		.split('\n')
		.slice(1)
		.map(line => `${' '.repeat(by)}${line}`)
		.join('\n');

const nth = [1, 2, 3, 4, 5, 6, 7, 8];
const frame = (n: number) => `  - part: frame ${n}
    faces:
      - face: tubes
        attitude: upright
        stroke: up and down
        area: 0.502655 m2
        strip: 20 mm x 40 cm
        fan: 6 cm`;
const seat = (n: number) => `  - part: seat ${n}
    faces:
      - face: underside
        attitude: flat
        near edge: front edge
        turned over: no
        stroke: side to side
        size: 40 cm x 38 cm
      - face: edges
        attitude: upright
        turned over: yes
        stroke: side to side
        size: 156 cm x 3 cm
      - face: top
        attitude: flat
        near edge: front edge
        turned over: yes
        stroke: side to side
        size: 40 cm x 38 cm
        after: [edges]`;
const each = (name: string) => nth.map(n => `${name.replaceAll('N', String(n))}`).join(', ');
const frames = each('frame N');
const undersides = each('seat N/underside');
const edges = each('seat N/edges');
const tops = each('seat N/top');

export const longSheet = `name: Eight garden chairs
units: metric
shop: { air: 20 °C, humidity: 50%, day: 9 h }
gun:
${bodyOf('guns/large.yaml', 2)}
materials:
  grey epoxy:
${bodyOf('materials/grey-epoxy.yaml', 4)}
  moss green satin:
${bodyOf('materials/moss-green.yaml', 4)}
stages:
  - { wipe: yes, name: degrease }
  - scuff
  - wipe
  - tack
  - { spray: grey epoxy, coats: [full, full] }
  - { wait: 9 h, name: overnight }
  - sand: 320 grit
  - wipe
  - tack
  - { spray: moss green satin, coats: [tack, full], leave out: [${each('seat N/edges, seat N/top')}] }
  - { wait: 9 h, name: overnight }
  - { scuff: yes, leave out: [${frames}, ${undersides}] }
  - { wipe: yes, leave out: [${frames}, ${undersides}] }
  - { tack: yes, leave out: [${frames}, ${undersides}] }
  - { spray: moss green satin, coats: [tack, full], leave out: [${frames}, ${undersides}, ${tops}] }
  - { spray: moss green satin, coats: [tack, full, full], leave out: [${frames}, ${undersides}, ${edges}] }
parts:
${nth.map(frame).join('\n')}
${nth.map(seat).join('\n')}
`;
