import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { rehearsedJob } from '../../src/cli/rehearse.ts';
import { rehearsedInMemory } from '../../src/cli/rehearsed-in-memory.ts';
import { movedClock } from '../../src/day/clock.ts';
import { type Line, rehearse } from '../../src/day/rehearsal.ts';
import { standardSettings } from '../../src/day/standard-settings.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { painterOf } from '../../src/painter/painter.ts';
import { folder } from './run.ts';

/** A serving tray of the coffee cart at the Pump Yard workshop: one coat a day, three days. Invented. */
const tray = `name: Serving tray
units: metric
shop: { air: 20 °C, humidity: 50%, day: 9 h }
gun:
  pressure: 2 bar
  fan: 20 cm
  fan depth: 5 cm
  distance: 15 cm
  overlap: 50%
  flow: 200 ml/min
  speed: 25 cm/s
  transfer: 60% ± 5%
  cup: { holds: 600 ml, kind: gravity, tilted: pours }
materials:
  cream:
    name: Cream satin
    isocyanate: no
    ratio: 2:1 by volume
    reducer: 10%
    order: [stir, base, hardener, reducer, strain]
    solids: 50%
    coats: { full: { film: 30 micron } }
    sags above: 120 micron
    pot life: 4 h at 20 °C
    standing: none
    strainer: 125 micron
    flash: { from: 15 min, to: 2 h, at: 20 °C, touch: tacky }
    wet edge: 2 min
    wet the tip: 20 min
    flush: 60 min
    recoat:
      - over: cream
        surface: 15 to 25 °C
        windows:
          - wait: 0 to 15 min
          - spray: 15 min to 2 h
          - wait: 2 h to 16 h
          - sand: from 16 h
    sand after: 16 h at 20 °C
    grit: 600
    limits: { air: 12 to 32 °C, humidity: 75%, over dew point: 3 °C }
stages:
  - wipe
  - tack
  - { spray: cream, coats: [full] }
  - wait: 16 h
  - sand: 600 grit
  - wipe
  - tack
  - { spray: cream, coats: [full] }
  - wait: 16 h
  - sand: 600 grit
  - wipe
  - tack
  - { spray: cream, coats: [full] }
order: as written
parts:
  - part: tray
    place: 1
    faces:
      - face: front
        attitude: upright
        stroke: side to side
        size: 60 cm x 40 cm
      - face: back
        attitude: upright
        stroke: side to side
        size: 60 cm x 40 cm
`;

/** Writes the sheet, changed where that is wanted, and says where it is. */
export function traySheet(change: (sheet: string) => string = sheet => sheet): string {
	const path = join(folder(), 'tray.yaml');
	writeFileSync(path, change(tray));
	return path;
}

export const start = '2025-03-04T08:00:00Z';

/** The lines that a careful painter keys on each day of a sheet, to its close, and what `morning` answered between. */
export async function playedLines(
	sheet: string,
): Promise<{ days: string[][]; mornings: Line[]; lines: Line[] }> {
	const job = await loadJob(sheet);
	const lists = job.ok ? await loadLists(job.job, sheet) : job;
	if (!job.ok || !lists.ok) throw new Error(JSON.stringify(lists.ok ? job : lists));
	const from = Date.parse(start);
	const next = {
		...{ job: job.job, lists: lists.lists, settings: { ...standardSettings, by: 'face' as const } },
		...{ clock: 'moved' as const, program: '0.0.0', zone: 'UTC', seed: 0 },
	};
	const { open, days } = rehearsedJob(rehearsedInMemory(), next, from, () => null);
	const rehearsal = rehearse(open, from, [], movedClock(from), days);
	const played: string[][] = [];
	const mornings: Line[] = [];
	const lines: Line[] = [];
	let line = rehearsal.first();
	do {
		const painter = painterOf(job.job, () => rehearsal.session().state());
		const keyed: string[] = [];
		for (let key = painter.answer(line); key !== null; key = painter.answer(line)) {
			keyed.push(key);
			line = rehearsal.take(key);
			lines.push(line);
			if (keyed.length > 2000) throw new Error(`no end: ${line.state}`);
		}
		played.push(keyed);
		line = rehearsal.take('morning');
		mornings.push(line);
	} while (line.accepted);
	return { days: played, mornings, lines };
}
