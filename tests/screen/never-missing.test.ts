import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { corners, type View } from '../../src/day/view.ts';
import { arrange } from '../../src/screen/arrange.ts';
import type { Size } from '../../src/screen/passing.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { playCuriously } from './curious.ts';
import { liveKinds } from './kinds.ts';
import { usKeys } from './show.ts';

/** What no screen may leave out, in the smallest window and in others, on every screen of whole days. */

const least: Size = { columns: 40, rows: 12 };
const sizes: Size[] = [
	least,
	{ columns: 60, rows: 16 },
	{ columns: 80, rows: 24 },
	{ columns: 120, rows: 40 },
	{ columns: 200, rows: 60 },
];

let live: View[];
beforeAll(async () => {
	live = [...(await liveKinds()).values()].flat();
}, 180_000);

/** Text as words, wherever its lines were broken. */
const words = (text: string) => text.split(/\s+/).filter(word => word !== '');
const inOrder = (text: string, rows: readonly string[]) =>
	words(rows.join(' ')).join(' ').includes(words(text).join(' '));

const holdOf = ({ ask, state }: View): string => {
	if (ask === 'closed') return 'leave';
	if (state.startsWith('keys.')) return '';
	if (state.startsWith('pick.')) return state === 'pick.day' ? 'Ctrl-C' : 'back';
	return ask === 'hold' ? 'space: stay held' : 'space: hold';
};

/** What is missing on a screen: the question, the face and its coat, an answer, what the space bar does, a line. */
function missing(view: View, size: Size): string[] {
	const shown = arrange(view, size, usKeys, 'half');
	const place = [...shown.top, ...shown.status].join('  ');
	const [, coat = '', of = ''] = /^(\d+) (\d+)$/.exec(`${view.coat} ${view.coats}`) ?? [];
	const counted = new RegExp(`coat ${coat}(/| of )${of}`);
	return [
		inOrder(view.say, shown.say) ? '' : `say "${view.say}"`,
		view.face === null || place.includes(view.face) || shown.name.length > 0 ? '' : `face ${view.face}`,
		coat === '' || counted.test(place) ? '' : `coat ${coat} of ${of}`,
		...corners.map(corner => {
			const text = view.corners[corner]?.text;
			return text === undefined || shown.answers[corner] === text ? '' : `answer ${text}`;
		}),
		shown.bottom.join('\n').includes(holdOf(view)) ? '' : 'hold',
		...view.lines.map(line => (inOrder(line, shown.lines) ? '' : `line "${line}"`)),
	].filter(what => what !== '');
}

test('with the example and with forty faces, whole days show all of it in every window', () => {
	const found = sizes.flatMap(size =>
		live.flatMap(view =>
			missing(view, size).map(what => `${size.columns}x${size.rows} ${view.state}: ${what}`),
		),
	);
	expect([...new Set(found)]).toEqual([]);
});

const part = fc.stringMatching(/^[a-z]{1,12}( [a-z]{1,12}){0,7}$/);

/** A sheet whose parts and faces are called anything, up to whole stories. */
function renamed(names: readonly string[]): ReturnType<typeof smallJob> {
	const job = smallJob();
	const known = new Map(
		[...new Set(job.faces.flatMap(face => [face.part, face.name]))].map((name, at) => [
			name,
			`${names[at]} ${at}`,
		]),
	);
	const nameOf = (name: string) => known.get(name) ?? name;
	const idOf = (id: string) => id.split('/').map(nameOf).join('/');
	const faces = job.faces.map(face => ({
		...face,
		id: idOf(face.id),
		part: nameOf(face.part),
		name: nameOf(face.name),
		after: face.after.map(idOf),
	}));
	return { ...job, parts: job.parts.map(one => ({ ...one, name: nameOf(one.name) })), faces };
}

/** What may be cut of a name that is longer than a row: neither its beginning nor its end, and no two into one. */
const isCutOf = (shown: string, whole: string): boolean => {
	const [head = '', tail = ''] = shown.split('…');
	return (
		shown.includes('…') &&
		head.length > 3 &&
		tail.length > 3 &&
		whole.startsWith(head) &&
		whole.endsWith(tail)
	);
};

test('with any names the question, the face, its coat, every answer and hold are there in the smallest window', () => {
	fc.assert(
		fc.property(fc.array(part, { minLength: 4, maxLength: 4 }), fc.nat(1000), (names, seed) => {
			const found = new Set<string>();
			const look = (view: View) => {
				const { answers, top, status } = arrange(view, least, usKeys, 'half');
				const place = [...top, ...status];
				const texts = Object.values(answers);
				if (new Set(texts).size < texts.length) found.add(`answers alike: ${texts}`);
				for (const what of missing(view, least)) {
					if (what.startsWith('line ')) continue;
					const [, , text = ''] = /^(face|answer) (.*)$/.exec(what) ?? [];
					if (text !== '' && [...place, ...texts].some(row => isCutOf(row, text))) continue;
					found.add(`${view.state}: ${what}`);
				}
			};
			const job = renamed(names);
			playCuriously({ job, lists: smallLists(), seed, settings: { by: 'stretch' } }, 120, new Set(), look);
			expect([...found]).toEqual([]);
		}),
		{ numRuns: 8 },
	);
});

test('beside one instruction stand at most three short lines', () => {
	const wide = live.filter(({ lines }) => lines.length > 3);
	expect(wide.map(({ state }) => state)).toEqual([]);
	for (const view of live) {
		const { lines } = arrange(view, { columns: 200, rows: 60 }, usKeys, 'half');
		expect([view.state, lines.length <= 3 || lines.length <= view.lines.length + 2]).toEqual([
			view.state,
			true,
		]);
	}
});
