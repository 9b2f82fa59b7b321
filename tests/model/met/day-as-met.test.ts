import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createTestModel } from '@xstate/test';
import { afterAll, describe, expect, test } from 'vitest';
import { type Act, acts, isSlip } from './acts.ts';
import { type Bounds, dayAsMet, type Moment } from './day-as-met.ts';
import { expectMet } from './expected.ts';
import { newPainter, type Painter } from './painter.ts';
import { play } from './play.ts';
import { program, rehearsals, seenIn, wordsFor } from './rehearsal.ts';

/**
 * Days as a painter meets them, played on the built program.
 * `MET=all npx vitest run tests/model/met` plays the long ones too: some minutes.
 */
const all = process.env.MET === 'all';
const long_ms = 30 * 60_000;

const rehearsal = rehearsals();
afterAll(() => rehearsal.end());

/** The job sheet, with paint that may stand longer in the gun where one pot is for the whole day. */
const folder = mkdtempSync(join(tmpdir(), 'met-'));
const sheet = readFileSync(join(import.meta.dirname, 'two-faces.yaml'), 'utf8');
const sheetFor = ({ plenty }: Bounds): string => {
	const path = join(folder, plenty ? 'one-pot.yaml' : 'two-faces.yaml');
	writeFileSync(path, plenty ? sheet.replace('flush: 30 min', 'flush: 2 h') : sheet);
	return path;
};

const known = new WeakMap<Moment, string>();
/** A moment as text, kept: looking for simple paths asks for it again and again. */
function inShort(moment: Moment): string {
	const text = known.get(moment) ?? `${moment.value} ${JSON.stringify(moment.context)}`;
	known.set(moment, text);
	return text;
}

/** How the way to a moment is told apart from others that lead to the same: each has a path of its own. */
type Apart = (act: Act, from: Moment) => string;
const bySlip: Apart = (act, { value }) => (isSlip(act) ? `${act} in ${value}` : '');
const byAct: Apart = (act, { value }) => `${act} in ${value}`;
/** Acts that lead where others lead too, and would else not be done. */
const merging: readonly Act[] = [
	...(['READ_AIR_AGAIN', 'TELL_LEVEL', 'TURN_HORNS', 'CLEAN_CAP', 'IN_ONE_GO', 'STOPPED'] as const),
	...(['NONE', 'KEEP_ON', 'AIR_BACK', 'AIR_NOT_BACK'] as const),
];
const bySlipAndMerging: Apart = (act, from) => (merging.includes(act) ? act : bySlip(act, from));

const modelOf = (bounds: Bounds, apart: Apart) =>
	createTestModel(dayAsMet(bounds), {
		serializeState: (to, event, from) => inShort(to) + (event && from ? ` ${apart(event.type, from)}` : ''),
	});
/** What can be done at a moment. */
const here = { events: (moment: Moment) => acts.map(type => ({ type })).filter(act => moment.can(act)) };
type Path = ReturnType<ReturnType<typeof modelOf>['getShortestPaths']>[number];
type Step = Path['steps'][number];

const actsOf = ({ steps }: Path): Act[] => steps.slice(1).map(({ event }) => event.type);
const slipOf = (path: Path): string => actsOf(path).find(isSlip) ?? 'nothing';

const inLines = ({ said }: Painter): string =>
	said.map(({ line, code, seen }) => `  ${code ? `${line} (${code})` : line}: ${seen.state}`).join('\n');

async function walk(path: Path, bounds: Bounds): Promise<Painter> {
	const painter = newPainter(rehearsal, await rehearsal.open(sheetFor(bounds)));
	const events = Object.fromEntries(
		acts.map(act => [act, ({ event, state }: Step) => play(painter, event.type, state)]),
	);
	try {
		await path.test({ events, states: { '*': moment => expectMet(painter, moment) } });
	} catch (error) {
		const [what = ''] = String(error instanceof Error ? error.message : error).split('\nPath:');
		throw new Error([what, `  ${actsOf(path).join(' ')}`, inLines(painter)].join('\n'));
	}
	return painter;
}

/** Plays paths, those with the same first slip in one test. */
function days(paths: readonly Path[], bounds: Bounds) {
	test.each([...new Set(paths.map(slipOf))])('%s', { timeout: long_ms }, async slip => {
		for (const path of paths.filter(one => slipOf(one) === slip)) await walk(path, bounds);
	});
}

const oneSlip: Bounds = { slips: 1, plenty: false };
const shortest = modelOf(oneSlip, bySlipAndMerging).getShortestPaths(here);

describe('days with one slip or break, to every moment and through every slip', () =>
	days(shortest, oneSlip));

test('every act of the chart is done on those days', () => {
	const done = new Set(shortest.flatMap(actsOf));
	expect(acts.filter(act => !done.has(act))).toEqual(['MIX_PLENTY']);
});

describe('a day from one pot, from which the cup is filled again behind the wait', () => {
	const bounds: Bounds = { slips: all ? 1 : 0, plenty: true };
	days(modelOf(bounds, bySlip).getShortestPaths(here), bounds);
});

test('a day played beside others gives the lines that it gives in a process of its own', async () => {
	const [path] = shortest.toSorted((one, other) => other.steps.length - one.steps.length);
	if (!path) throw new Error('there are no paths');
	const { said } = await walk(path, oneSlip);
	const { stdout } = spawnSync(process.execPath, [program, ...wordsFor(sheetFor(oneSlip))], {
		input: said.map(({ line }) => `${line}\n`).join(''),
		encoding: 'utf8',
	});
	const alone = stdout.trim().split('\n').slice(1);
	expect(alone.map(line => seenIn(JSON.parse(line)))).toEqual(said.map(({ seen }) => seen));
});

describe.runIf(all)('days with one slip or break, through every act in every state', () => {
	if (all) days(modelOf(oneSlip, byAct).getShortestPaths(here), oneSlip);
});

describe.runIf(all)('days with two slips or breaks, through every act', () => {
	const bounds: Bounds = { slips: 2, plenty: false };
	if (all) days(modelOf(bounds, act => act).getShortestPaths(here), bounds);
});

describe.runIf(all)('every simple path with one slip or break to the closed day', () => {
	const closed = { ...here, toState: ({ value }: Moment) => value === 'closed' };
	if (all) days(modelOf(oneSlip, () => '').getSimplePaths(closed), oneSlip);
});
