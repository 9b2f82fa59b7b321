import type { DayContext, FaceState } from '../../machines/day-context.ts';
import { ruleFor } from '../../machines/day-context.ts';
import { marksOf, type Stop } from '../../machines/stops.ts';
import type { DayEvent, Facts } from '../../src/day/records.ts';
import { airRead, checkBegan, moved, passedOver, read, startOfFace } from './alphabet.ts';
import { type DayMachineState, type Machines, put } from './machines.ts';
import { allGood, type Plan } from './plans.ts';

/**
 * Of each face, wherever a day stands: the first thing that stands before its coat has a record that the chart takes
 * and that puts it right, and where nothing is left the start is taken.
 */

/** Each fact in turn as bad as it can be. */
const bad: readonly Facts[] = [
	allGood,
	...(['none', 'stale', 'out'] as const).map(air => ({ ...allGood, air })),
	...(['alive', 'thinned', 'fresh', 'lasts', 'enough'] as const).map(fact => ({ ...allGood, [fact]: false })),
	{ ...allGood, aged: true },
	{ ...allGood, wet: false },
];

const due = '2027-03-02T09:00:00.000Z';

/** The way from an activity to the bench, where what comes next is asked. */
const toBench: Record<string, readonly DayEvent[]> = {
	bench: [],
	ready: [{ type: 'gun.unknown', why: 'break' }],
	hold: [{ type: 'break.ended', kind: 'hold', by: 'painter', facts: { long: false } }],
	wait: [{ type: 'wait.ended', face: null, coat: null, due, facts: { due: true } }],
};

function paintFor(context: DayContext, face: FaceState, plan: Plan): DayEvent[] {
	const material = ruleFor(face)?.material ?? '';
	const mixed = Object.entries(context.batches).find(
		([, batch]) => batch.matches('ready') && batch.context.material === material,
	)?.[0];
	if (mixed) return [{ type: 'batch.loaded', batch: mixed, volume_mL: 200, refill: false }];
	const standing = Object.entries(context.batches).find(([, batch]) => batch.matches('standing'))?.[0];
	if (standing) return [{ type: 'batch.stood', batch: standing, facts: { stood: true } }];
	const batch = [...plan.letters, 'Z'].find(letter => context.batches[letter] === undefined) ?? 'Z';
	const ratio = { base: 2, hardener: 1, reducer: 0 };
	return [{ type: 'batch.started', batch, material, ratio, by: 'volume', make_mL: 200 }];
}

/** What puts a stop right. */
function cureOf(stop: Stop, context: DayContext, face: FaceState, plan: Plan): DayEvent[] {
	const { rules, laid } = face.context;
	const { id } = rules;
	const coat = laid + 1;
	switch (stop.by) {
		case 'account':
			return context.faces
				.filter(one => one.matches('broken'))
				.map(({ context: broken }) => ({
					type: 'face.ended',
					face: broken.rules.id,
					coat: broken.laid + 1,
					extent: 'none',
					lastStroke: null,
					estimated: true,
				}));
		case 'one-go':
			return [read('one-go', 'yes', true)];
		case 'list':
			return [checkBegan('before-spraying', ['mask'])];
		case 'aside':
			return stop.step ? [{ type: 'rework.done', face: id, step: stop.step, facts: { due: true } }] : [];
		case 'coats':
			return [passedOver('coats', id)];
		case 'air':
			return [airRead];
		case 'window':
			if (stop.is === 'wait') return [moved(id, 'spray')];
			/** Half a coat is on: nothing is sanded under it. */
			if (face.matches('part')) return [passedOver('window', id, { window: stop.is })];
			return [{ type: 'stage.done', face: id, stage: stop.is, grit: null, place: null }];
		case 'prep':
		case 'tack':
			return [{ type: 'stage.done', face: id, stage: stop.step, grit: null, place: stop.place }];
		case 'touch':
			return [read('touch', 'tacky', true, { faces: [id], face: id })];
		case 'cup':
			return stop.is === 'empty' || stop.is === 'short'
				? paintFor(context, face, plan)
				: [{ type: 'cup.emptied', volume_mL: 0, why: 'flushed' }];
		case 'gun':
			return stop.is === 'unknown'
				? [checkBegan('gun-check', plan.full, 'full', id, coat)]
				: [{ type: 'gun.unknown', why: ({ horns: 'cap-turn', fan: 'knob', aged: 'age' } as const)[stop.is] }];
	}
}

/** A stop put right, or on the way to it: another stands first, or its list, its mixing or its check is gone through. */
const isOnItsWay = (
	machines: Machines,
	stop: Stop,
	after: DayMachineState,
	face: string,
	facts: Facts,
): boolean => {
	if (after.value === 'list' || after.value === 'mix' || after.value === 'check') return true;
	const now = after.context.faces.find(({ context }) => context.rules.id === face);
	const first = now && machines.stopsOf(after.context, now, facts)[0];
	return JSON.stringify(first) !== JSON.stringify(stop);
};

const through = (machines: Machines, start: DayMachineState, events: readonly DayEvent[]) =>
	events.reduce<DayMachineState | null>(
		(state, event) => state && put(machines.day, state, event).next,
		start,
	);

/** What a state leaves without a way on, in words; and how many stops were asked about. */
export function ladderAt(
	machines: Machines,
	plan: Plan,
	state: DayMachineState,
): { asked: number; says: string[] } {
	const way = toBench[String(state.value)];
	if (!way) return { asked: 0, says: [] };
	/** A pot half mixed is gone on with first. */
	const there = through(machines, state, way);
	if (there?.value === 'mix') return { asked: 0, says: [] };
	const says: string[] = [];
	let asked = 0;
	for (const face of state.context.faces)
		for (const facts of bad) {
			const { id } = face.context.rules;
			const [stop] = machines.stopsOf(state.context, face, facts);
			const { value } = face;
			asked++;
			if (!stop) {
				if (state.value !== 'ready') continue;
				const from = value === 'part' ? 'part' : 'start';
				const { found } = state.context.gun.context;
				const tie = {
					cup: state.context.cup,
					check: found?.check ?? 0,
					overrides: marksOf(state.context, face),
				};
				const start = startOfFace(id, face.context.laid + 1, from, facts, tie);
				if (!put(machines.day, state, start).next)
					says.push(`nothing stands before ${id}, and it may not be started`);
				continue;
			}
			/** A pass under way is ended by its own key. */
			if (value === 'spraying' || (value === 'broken' && stop.by !== 'account')) continue;
			/** It comes back with the face beside it. */
			if (value === 'beside' && stop.by === 'aside') continue;
			const cure = cureOf(stop, state.context, face, plan);
			const here = through(machines, state, cure);
			const after = here ?? through(machines, state, [...way, ...cure]);
			/** Fresh air, and paint that has died, are other facts afterwards. */
			const later = stop.by === 'air' || stop.by === 'cup' ? allGood : facts;
			if (!after || !isOnItsWay(machines, stop, after, id, later))
				says.push(
					`${stop.by}${'is' in stop ? ` ${stop.is}` : ''} stands before ${id}, and nothing puts it right`,
				);
		}
	return { asked, says };
}
