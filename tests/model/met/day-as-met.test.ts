import { createTestModel } from '@xstate/test';
import { afterAll, test } from 'vitest';
import { type Act, isSlip } from './acts.ts';
import { dayAsMet, type Moment } from './day-as-met.ts';
import { expectMet } from './expected.ts';
import { newPainter } from './painter.ts';
import { acts, play } from './play.ts';
import { rehearsals } from './rehearsal.ts';

const rehearsal = rehearsals();
afterAll(() => rehearsal.end());

const inShort = ({ value, context }: Moment) => `${value} ${JSON.stringify(context)}`;
const model = createTestModel(dayAsMet({ slips: 1 }), { serializeState: inShort });
const paths = model.getShortestPaths();
type Path = (typeof paths)[number];
type Step = Path['steps'][number];

const actsOf = ({ steps }: Path) => steps.map(({ event }) => event.type);
const slipOf = (path: Path): Act | 'none' => actsOf(path).find(isSlip) ?? 'none';

async function walk(path: Path) {
	const painter = newPainter(rehearsal, await rehearsal.open());
	const events = Object.fromEntries(
		acts.map(act => [act, ({ event, state }: Step) => play(painter, event.type, state)]),
	);
	try {
		await path.test({ events, states: { '*': moment => expectMet(painter, moment) } });
	} catch (error) {
		const [what = ''] = String(error instanceof Error ? error.message : error).split('\nPath:');
		throw new Error(`${what}\n  ${actsOf(path).join(' ')}\n  ${painter.said.join('\n  ')}`);
	}
}

test.each([...new Set(paths.map(slipOf))])('days with one slip or break: %s', async slip => {
	for (const path of paths.filter(one => slipOf(one) === slip)) await walk(path);
});
