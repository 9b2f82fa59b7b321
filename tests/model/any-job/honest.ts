import type { Line } from '../../../src/day/rehearsal.ts';
import { parseJob } from '../../../src/job/load.ts';
import { keyFor } from '../../../src/painter/painter.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { standardLists } from '../by-chance/sheets.ts';
import type { Raw } from '../checker/lines.ts';

/** A day that the program wrote for a painter who answers every screen rightly, for tests that spoil it. */

/** What is keyed at a screen instead of the right answer: a code of a corner, or a whole line. */
export type Turn = (line: Line, records: readonly Raw[]) => { code: string } | { line: string } | null;

const recordsIn = (bytes: Uint8Array): Raw[] =>
	Buffer.from(bytes)
		.toString('utf8')
		.trimEnd()
		.split('\n')
		.map((line): Raw => JSON.parse(line.slice(9)));

/** The records of a day on this sheet, `pause_s` before every key. */
export async function honestDay(sheet: string, pause_s: number, turn: Turn = () => null): Promise<Raw[]> {
	const parsed = parseJob(sheet, 'sheet.yaml');
	if (!parsed.ok) throw new Error(parsed.errors.map(({ says }) => says).join('; '));
	const day = rehearsed({
		job: parsed.job,
		lists: await standardLists(),
		seed: 1,
		settings: { by: 'face', units: 'metric' },
	});
	for (let count = 0; count < 700 && day.line().ask !== 'closed'; count++) {
		day.send(`wait ${pause_s} s`);
		const other = turn(day.line(), recordsIn(day.bytes()));
		const keyed = other && ('code' in other ? keyFor(day.line(), other.code) : other.line);
		const line = keyed ?? day.painter.answer(day.line());
		if (line === null) break;
		day.send(line);
	}
	return recordsIn(day.bytes());
}

/** Every step of a list twice, waits among them, work after the last coat, and a door that gets a run. */
export const longSheet = `name: Wait and unmask
units: metric
shop: { air: 21 °C, humidity: 50%, day: 40 h }
gun:
  pressure: 200 kPa
  fan: 200 mm
  fan depth: 50 mm
  distance: 150 mm
  overlap: 50%
  flow: 200 mL/min
  speed: 350 mm/s
  transfer: 65%
  cup: { holds: 600 mL, kind: gravity }
materials:
  primer:
    name: Grey primer
    isocyanate: no
    breathing: { spraying: filter mask with A2-P3 }
    ratio: 1:1 by volume
    reducer: 15%
    order: [stir, base, hardener, reducer, stand, strain]
    solids: 46%
    coats: { full: { film: 30 um } }
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
        windows: [wait: 0 to 30 min, spray: 30 min to 2 h, scuff: 2 h to 5 h, spray: 5 h to 9 h, sand: from 9 h]
    sand after: [1 h at 18 °C, 30 min at 27 °C]
    grit: 320
    limits: { air: 12 to 38 °C, humidity: 80%, over dew point: 3 °C }
stages:
  - wipe
  - sand: 320 grit
  - wipe
  - tack
  - { spray: primer, coats: [full] }
  - wait: 3 h
  - sand: 320 grit
  - fill
  - wait: 2 h
  - sand: 600 grit
  - wipe
  - { spray: primer, coats: [full] }
  - unmask
order: as written
parts:
  - part: counter lid
    faces:
      - { face: top, attitude: upright, stroke: side to side, size: 60 cm x 50 cm }
  - part: left door
    faces:
      - { face: edges, attitude: upright, stroke: side to side, size: 200 cm x 5 cm }
      - { face: outside, attitude: upright, stroke: side to side, size: 60 cm x 50 cm }
`;

/** A run on a face of the left door in its first coat: the part is set aside, and its line gone through. */
export function runOnDoor(line: Line, records: readonly Raw[]): { code: string } | null {
	const codes = Object.values(line.corners).map(({ code }) => code);
	const isSeen = records.some(({ type }) => type === 'fault.seen');
	if (line.state === 'spraying' && line.face === 'left door/outside' && line.coat === 1 && !isSeen)
		return { code: 'trouble' };
	const next = ['wet-fault', 'all', 'run', 'left door/outside', 'set-part-aside', 'stay'].find(code =>
		codes.includes(code),
	);
	return next === undefined || (next === 'all' && isSeen) ? null : { code: next };
}
