import { historyAfter } from '../../src/day/history.ts';
import type { DayRecord } from '../../src/day/records.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';
import { rehearsed, start } from './rehearsed.ts';

/** Two stools of the coffee cart, sprayed on all sides, over three days: primer, sanding, topcoat. Invented. */

const seat = (part: string, place: number) => `  - part: ${part}
    place: ${place}
    faces:
      - { face: underside, attitude: flat, stroke: to and fro, near edge: front edge, size: 40 cm x 38 cm }
      - { face: edges, attitude: upright, stroke: side to side, size: 156 cm x 3 cm }
      - { face: top, attitude: flat, near edge: front edge, stroke: to and fro, size: 40 cm x 38 cm, after: [edges] }
`;

const sheet = `name: Two stools
units: metric
shop: { air: 19 °C, humidity: 60%, day: 9 h }
gun:
  pressure: 2 bar
  fan: 25 cm
  fan depth: 4 cm
  distance: 15 cm
  overlap: 50%
  flow: 280 ml/min
  speed: 25 cm/s
  transfer: 55% ± 10%
  cup: { holds: 600 ml, kind: gravity, tilted: pours }
materials:
  primer:
    name: Grey primer
    isocyanate: no
    ratio: 4:1 by volume
    reducer: 10%
    order: [stir, base, hardener, reducer, stand, strain, cup]
    solids: 48%
    coats: { full: { film: 50 micron } }
    sags above: 180 micron
    pot life: 6 h at 20 °C
    standing: 15 min
    strainer: 190 micron
    flash: { from: 30 min, to: 4 h, at: 20 °C, touch: [tacky, dry] }
    wet edge: 4 min
    wet the tip: 20 min
    flush: 60 min
    recoat:
      - over: primer
        surface: 15 to 25 °C
        windows: [wait: 0 to 30 min, spray: 30 min to 24 h, sand: from 24 h]
    sand after: 12 h at 20 °C
    grit: 320
    cup: { kind: din4, runs: 18 to 22 s }
    limits: { air: 10 to 35 °C, humidity: 80%, over dew point: 3 °C }
  topcoat:
    name: Green satin
    isocyanate: yes
    ratio: 2:1 by volume
    reducer: 10%
    order: [stir, base, hardener, reducer, strain, cup]
    solids: 50%
    coats: { tack: { film: 15 micron }, full: { film: 30 micron } }
    sags above: 100 micron
    pot life: 2 h at 20 °C
    standing: none
    strainer: 125 micron
    flash: { from: 15 min, to: 2 h, at: 20 °C, touch: tacky }
    wet edge: 2 min
    wet the tip: 10 min
    flush: 30 min
    recoat:
      - over: primer
        surface: 15 to 25 °C
        windows: [wait: 0 to 12 h, sand: from 12 h]
      - over: topcoat
        surface: 15 to 25 °C
        windows: [wait: 0 to 15 min, spray: 15 min to 2 h, wait: 2 h to 16 h, sand: from 16 h]
    sand after: 24 h at 20 °C
    grit: 600
    cup: { kind: din4, runs: 17 to 20 s }
    limits: { air: 12 to 32 °C, humidity: 75%, over dew point: 3 °C }
stages:
  - wipe
  - tack
  - { spray: primer, coats: [full] }
  - wait: 16 h
  - sand: 320 grit
  - wipe
  - tack
  - { spray: topcoat, coats: [tack, full] }
order: fewest turns
parts:
  - part: legs 1
    place: 1
    faces: [{ face: tubes, attitude: upright, stroke: up and down, area: 0.5 m2 }]
  - part: legs 2
    place: 2
    faces: [{ face: tubes, attitude: upright, stroke: up and down, area: 0.5 m2 }]
${seat('seat 1', 3)}${seat('seat 2', 4)}`;

const path = 'stools.yaml';
type Change = (text: string) => string;

/** The job of the stools, changed where that is wanted. */
export function stoolJob(change: Change = text => text) {
	const loaded = parseJob(change(sheet), path);
	if (!loaded.ok) throw new Error(JSON.stringify(loaded));
	return loaded.job;
}

/** … and the lists that come with the program. */
export async function stools(change?: Change) {
	const job = stoolJob(change);
	const lists = await loadLists(job, path);
	if (!lists.ok) throw new Error(JSON.stringify(lists));
	return { job, lists: lists.lists };
}

export type Stools = Awaited<ReturnType<typeof stools>>;

/** A day of theirs: so many days after the first, on what the one before it left. */
export function stoolDay(
	given: Stools,
	days: number,
	before?: readonly DayRecord[],
	watch?: (line: Line) => void,
) {
	return rehearsed({
		...given,
		...(before && { before: historyAfter(before) }),
		...(watch && { watch }),
		at: start + days * 86_400_000,
	});
}

/** Closed as it stands, from wherever it is. */
export function leave(day: ReturnType<typeof stoolDay>): void {
	day.send('hold');
	for (const code of ['close', 'close']) day.pick(code);
}

/** What was done to faces since a record, in order. */
export const workSince = (day: ReturnType<typeof stoolDay>, from = 0) =>
	day
		.records()
		.slice(from)
		.flatMap(record => (record.type === 'stage.done' ? [`${record.stage} ${record.face}`] : []));
