import { readFileSync, writeFileSync } from 'node:fs';
import type { View } from '../../src/day/view.ts';

/** One view of every kind of screen, kept as a rehearsed day once gave it. `npm run screens` keeps them anew. */

const path = 'tests/screen/fixtures/views.jsonl';

export const savedViews = (): Record<string, View> =>
	Object.fromEntries(
		readFileSync(path, 'utf8')
			.trimEnd()
			.split('\n')
			.map((line): [string, View] => JSON.parse(line)),
	);

/** How much there is to show. */
const lengthOf = ({ say, lines, corners, face }: View): number =>
	[say, ...lines, face ?? '', ...Object.values(corners).map(({ text }) => text)].join(' ').length;

/** Keeps the view of each kind that has most to show. */
export function save(kinds: ReadonlyMap<string, readonly View[]>): void {
	const fullest = [...kinds].map(([kind, views]) => {
		const [most] = [...views].sort((one, other) => lengthOf(other) - lengthOf(one));
		return [kind, { ...most, faces: [], events: undefined, accepted: undefined }] as const;
	});
	const kept = fullest.sort(([one], [other]) => (one < other ? -1 : 1));
	writeFileSync(path, kept.map(one => `${JSON.stringify(one)}\n`).join(''));
}
