import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import type { Ask, View } from '../../src/day/view.ts';
import { liveKinds } from './kinds.ts';
import { savedViews } from './saved.ts';

const saved = savedViews();
let live: ReadonlyMap<string, readonly View[]>;
beforeAll(async () => {
	live = await liveKinds();
});

test('the kept screens are of just the kinds that whole days show', () => {
	expect(Object.keys(saved).sort()).toEqual([...live.keys()].sort());
});

/** Every ask, so that the compiler misses none. */
const asks: Record<Ask, true> = {
	item: true,
	pair: true,
	level: true,
	number: true,
	pattern: true,
	card: true,
	horns: true,
	gauge: true,
	'pattern-height': true,
	flooded: true,
	breathing: true,
	can: true,
	batch: true,
	touch: true,
	'last-face': true,
	'which-face': true,
	'one-go': true,
	do: true,
	go: true,
	spraying: true,
	wait: true,
	hold: true,
	trouble: true,
	choose: true,
	text: true,
	closed: true,
};

test('every ask has a kept screen', () => {
	const kept = new Set(Object.values(saved).map(({ ask }) => ask));
	expect(Object.keys(asks).filter(ask => !kept.has(ask as Ask))).toEqual([]);
});

/** Every literal that is written for a `state` in the prompts; what is put into a template may be anything. */
function statesWritten(): string[] {
	const folder = 'src/day/asks';
	const files = [
		...readdirSync(folder).map(name => join(folder, name)),
		'src/day/ask.ts',
		'src/screen/picker.ts',
	];
	return files.flatMap(file =>
		[
			...readFileSync(file, 'utf8').matchAll(/^\s*(?:return )?\{?\s*state: (.*?),$|const state = (.*);$/gm),
		].flatMap(([, named, held]) =>
			[...(named ?? held ?? '').matchAll(/'([a-z][\w.-]*)'|`(.*)`/gi)].map(one => one[1] ?? one[2] ?? ''),
		),
	);
}

/** Never on a screen: these steps are done as soon as they come up. */
const isUnseen = (state: string) => state.startsWith('bench.');

test('every state that a prompt is written for is among the days that were played', () => {
	const written = statesWritten().filter(state => !isUnseen(state));
	expect(written.length).toBeGreaterThan(50);
	const shown = [...live.values()].flat().map(({ state }) => state);
	const missing = written.filter(state => {
		const open = state
			.replace(/\$\{.*\}/g, '\u0000')
			.replace(/[.]/g, '\\.')
			.replaceAll('\u0000', '.+');
		return !shown.some(one => new RegExp(`^${open}$`).test(one));
	});
	expect(missing).toEqual([]);
});

/** A sentence without what is counted or named in it. */
function bare(text: string, names: readonly string[]): string {
	const lower = text.toLowerCase().replace(/\d+(?:[.:]\d+)*/g, '#');
	return names.reduce((left, name) => left.replaceAll(name, '@'), lower).replace(/\b[a-z]\b/g, '@');
}

test('what a kept screen asks is still asked, with the same answers', () => {
	const faces = [...live.values()]
		.flat()
		.flatMap(({ face }) => (face ? [face.replace('/', ' '), face.split('/')[0] ?? ''] : []));
	const names = [...new Set(faces)]
		.map(name => name.toLowerCase())
		.sort((one, other) => other.length - one.length);
	const asked = ({ say, corners }: View) =>
		JSON.stringify([
			bare(say, names),
			Object.entries(corners).map(([at, { code }]) => [at, bare(code, names)]),
		]);
	const stale = Object.entries(saved).filter(
		([kind, view]) => !live.get(kind)?.some(one => asked(one) === asked(view)),
	);
	expect(stale.map(([kind]) => kind)).toEqual([]);
});
