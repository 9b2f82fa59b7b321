import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';

/** Two rails of the Pump Yard workshop in one day: primer with the large gun, colour with the small one. Invented. */

const sheet = `name: Two rails
units: metric
shop: { air: 20 °C, humidity: 50%, day: 9 h }
guns:
  large:
    pressure: 2 bar
    fan: 25 cm
    flow: 200 mL/min ± 3%
    transfer: 50% ± 10%
    losses: { gun: 20 mL }
    cup: 600 mL gravity
  small:
    pressure: 25 psi
    fan: 15 cm
    flow: 120 mL/min ± 3%
    transfer: 60% ± 10%
    losses: { gun: 5 mL }
    cup: 300 mL gravity
materials:
  grey epoxy:
    isocyanate: no
    breathing: supplied air
    ratio: 1:1 by volume
    reducer: 15%
    standing: none
    solids: 46%
    coats: { full: { film: 30 um } }
    sags above: 130 um
    pot life: 6 h at 20 °C
    flash: { from: 30 min, to: 8 h, at: 20 °C, touch: [tacky, dry] }
    wet edge: 3 min
    flush: 60 min
    recoat:
      - over: grey epoxy
        surface: 15 to 30 °C
        windows: [wait: 0 to 30 min, spray: 30 min to 8 h, sand: from 8 h]
    sand after: 8 h at 20 °C
    limits: { air: 12 to 35 °C, humidity: 80% }
  moss green:
    isocyanate: yes
    breathing: supplied air
    ratio: 2:1 by volume
    reducer: 10%
    standing: none
    solids: 50%
    coats: { full: { film: 30 um } }
    sags above: 100 um
    pot life: 3 h at 20 °C
    flash: { from: 15 min, to: 2 h, at: 20 °C, touch: tacky }
    wet edge: 2 min
    recoat:
      - over: grey epoxy
        surface: 15 to 30 °C
        windows: [wait: 0 to 45 min, spray: 45 min to 8 h, sand: from 8 h]
      - over: moss green
        surface: 15 to 30 °C
        windows: [wait: 0 to 15 min, spray: 15 min to 2 h, wait: 2 h to 16 h, sand: from 16 h]
    sand after: 24 h at 20 °C
    limits: { air: 12 to 32 °C, humidity: 75% }
stages:
  - wipe, tack
  - { spray: grey epoxy, gun: large, coats: 1 full }
  - { spray: moss green, gun: small, coats: 2 full }
parts:
  - part: rail
    count: 2
    faces:
      - { face: front, attitude: upright, stroke: side to side, size: 90 cm x 12 cm }
      - { face: edges, attitude: upright, stroke: up and down, size: 3 cm x 90 cm }
`;

/** The job, changed where that is wanted, and the lists that come with the program. */
export async function twoGuns(change: (text: string) => string = text => text) {
	const loaded = parseJob(change(sheet), 'rails.yaml');
	if (!loaded.ok) throw new Error(JSON.stringify(loaded.errors));
	const lists = await loadLists(loaded.job, 'rails.yaml');
	if (!lists.ok) throw new Error(JSON.stringify(lists));
	return { job: loaded.job, lists: lists.lists };
}
