import { join } from 'node:path';
import type { DayEvent, DayRecord } from '../../src/day/records.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';

const sheet = join(import.meta.dirname, '../../checklists/example/coffee-cart.yaml');

export async function cartJob(): Promise<Job> {
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example sheet does not load');
	return loaded.job;
}

type Day = ReturnType<typeof rehearsed>;
type Line = ReturnType<Day['line']>;

/** Things that go wrong on the way, each once. */
const mishaps: { when: (line: Line) => boolean; does: (day: Day) => void }[] = [
	{
		when: ({ state, ask }) => state === 'list.before-spraying.mask' && ask === 'pair',
		does: day => {
			day.pick('loaded');
			day.pick(day.painter.world.breathing);
			day.pick('weak');
			day.pick('ask-again');
		},
	},
	{
		when: ({ state }) => state === 'list.clean-up.hands',
		does: day => {
			day.pick('not-yet');
			day.send('text overalls go to the laundry as they are; the tap at the door runs');
		},
	},
	{ when: ({ ask, coat }) => ask === 'gauge' && coat === 1, does: day => void day.send('number 24') },
	{
		when: ({ ask, coat, face }) => ask === 'pattern' && coat === 2 && face !== null,
		does: day => {
			const { world } = day.painter;
			world.horns = world.horns === 'level' ? 'upright' : 'level';
		},
	},
	{
		when: ({ state, face }) => state === 'spraying' && face === 'left door/outside',
		does: day => {
			day.send('wait 9 s', 'hold', 'wait 25 s');
			day.pick('back');
			day.pick('part');
			day.send('number 3');
		},
	},
	{
		when: ({ state, face, coat }) => state === 'spraying' && face === 'corner box/sides' && coat === 1,
		does: day => {
			day.send('wait 8 s', 'hold', 'wait 7 min');
			day.pick('back');
			day.pick('all');
		},
	},
	{
		when: ({ state, face, coat }) => state === 'spraying' && face === 'right door/outside' && coat === 2,
		does: day => {
			day.send('trigger on', 'wait 40 s', 'trigger off');
			day.pick('finished');
			day.send('wait 3 min', 'hold');
			day.pick('trouble');
			day.pick('wet-fault');
			day.pick('run');
			day.pick('right door/outside');
			day.pick('set-part-aside');
			day.pick('back');
		},
	},
];

/** Seconds from one key to the next at the bench. */
const pace_s = 7;

let kept: Promise<DayRecord[]> | undefined;

/** The first day of the example job as a painter with bad luck has it: breaks, readings that differ, a run. */
export function cartDay(): Promise<DayRecord[]> {
	kept ??= played();
	return kept;
}

async function played(): Promise<DayRecord[]> {
	const job = await cartJob();
	const loaded = await loadLists(job, sheet);
	if (!loaded.ok) throw new Error('the lists do not load');
	const day = rehearsed({ job, lists: loaded.lists });
	const left = new Set(mishaps);
	for (let count = 0; count < 3000; count++) {
		const line = day.line();
		const mishap = [...left].find(({ when }) => when(line));
		if (mishap) {
			left.delete(mishap);
			mishap.does(day);
			continue;
		}
		const next = day.painter.answer(line);
		if (next === null) return inspected(day.records());
		day.send(next);
		if (!['spraying', 'wait', 'hold'].includes(day.line().state)) day.send(`wait ${pace_s} s`);
	}
	throw new Error(`the day never ended: it stands in ${day.line().state}`);
}

/** Records that follow the last ones of a day, hours later. */
export function added(
	records: readonly DayRecord[],
	hours: number,
	events: readonly DayEvent[],
): DayRecord[] {
	const last = records.at(-1);
	if (!last) return [];
	const at = new Date(Date.parse(last.at) + hours * 3_600_000).toISOString();
	const more = events.map((event, nth) => ({
		seq: last.seq + 1 + nth,
		run: last.run + 1,
		at,
		mono: 1000 + nth,
		...event,
	}));
	return [...records, ...more];
}

/** The next morning. */
const inspected = (records: readonly DayRecord[]): DayRecord[] =>
	added(records, 15, [
		{ type: 'film.read', face: 'counter lid/top', coat: 2, dry_um: 61, by: 'dry gauge' },
		{ type: 'film.read', face: 'left door/outside', coat: 1, wet_um: 74, by: 'wet comb on scrap' },
		{ type: 'fault.seen', fault: 'dry-spray', face: 'canopy rail/front', coat: 2 },
		{ type: 'face.judged', face: 'counter lid/edges', coat: 2, verdict: 'cleared', reason: '' },
		{
			type: 'face.judged',
			face: 'left door/outside',
			coat: 2,
			verdict: 'accepted',
			reason: 'a dimple near the hinge, hidden by the strap',
		},
		{ type: 'photo.kept', face: 'right door/outside', coat: 2, where: 'photos/right-door.jpg' },
	]);
