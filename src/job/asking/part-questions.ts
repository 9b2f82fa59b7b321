import { notAllowed } from '../errors.ts';
import { type ShapeRead, shapeNames, shapeRead, sizesLike, sizesMean, waysHeld } from '../shape-words.ts';
import { facesOfShape } from '../shapes.ts';
import type { Shelf } from '../shelf.ts';
import { key, wholeNumber } from '../values.ts';
import type { PartDrafted } from './drafted.ts';
import { namesOn, shapeOn } from './on-shelf.ts';
import { type Asking, ask, choiceOf, type Put, type Read } from './question.ts';

/** What is to be painted: how many of what, its shape, its sizes, how it is held. */

/** So many parts a bench can hold, and more. This project's own choice. */
export const mostParts = 1000;

type Named = { name: string; count: number | null };

/** Names that a stage could not tell apart: the same, or one followed by what the other's parts or faces are called. */
const alike = (one: string, other: string): boolean => {
	const [shorter, longer] = one.length < other.length ? [one, other] : [other, one];
	const rest = longer.startsWith(`${shorter} `) ? longer.slice(shorter.length + 1) : null;
	return (
		longer === shorter ||
		(rest !== null && /^\d|^(?:underside|edges|top|inside|outside|sides|bottom|tubes|round)$/.test(rest))
	);
};

const manyOf: readonly (readonly [many: RegExp, one: string])[] = [
	[/(x|ch|sh|ss)es$/, '$1'],
	[/([^aeiou]{2})ies$/, '$1y'],
	[/(el|ea|oa)ves$/, '$1f'],
	[/([^siu])s$/, '$1'],
];

/** What one of `frames` is called: its faces and its sizes are those of one. */
function oneOfMany(name: string): string {
	const [many, one] = manyOf.find(([ending]) => ending.test(name)) ?? [];
	return many === undefined || one === undefined ? name : name.replace(many, one);
}

/** `8 x seat`, `8 seats`, or `seat`; with an x it is called as it is written. */
export function namedParts(answer: string, parts: readonly PartDrafted[]): Read<Named> {
	const [, times, cross, written = answer] = /^(\d+)\s*([x×]?)\s+(\S.*)$/.exec(answer) ?? [];
	const said = cross === '' && times !== '1' ? oneOfMany(written) : written;
	const name = key.safeParse(said);
	if (/^\d*\s*[x×]?$/.test(said) || !name.success)
		return {
			wrong: name.success ? 'say what it is, as in "8 x frame"' : (name.error.issues[0]?.message ?? ''),
		};
	const count = times === undefined ? null : wholeNumber(1, mostParts).safeParse(times);
	if (count && !count.success) return { wrong: `allowed: 1 to ${mostParts} of them` };
	const other = parts.find(part => alike(part.name.toLowerCase(), name.data.toLowerCase()));
	if (other) return { wrong: `${name.data} is too much like ${other.name}: choose another name` };
	const there = parts.reduce((sum, part) => sum + (part.count ?? 1), count?.data ?? 1);
	if (there > mostParts) return { wrong: `at most ${mostParts} parts fit one job` };
	return { is: { name: name.data, count: count?.data ?? null } };
}

const oneOf =
	<const T extends string>(choices: readonly T[]) =>
	(answer: string): Read<T> => {
		const found = choices.find(one => one === choiceOf(choices, answer));
		return found === undefined ? { wrong: notAllowed(answer, choices) } : { is: found };
	};

function* sizesQuestion(chosen: string, name: string, ahead: number) {
	const shape = shapeNames.find(one => one === chosen) ?? 'panel';
	const put = {
		...{ question: 'sizes', say: `Sizes of one ${name}?`, means: `In this order: ${sizesMean(shape)}.` },
		...{ like: sizesLike(shape), ahead },
	};
	return yield* ask(put, (answer): Read<{ written: string; read: ShapeRead }> => {
		const read = shapeRead.safeParse(`${shape}, ${answer}`);
		if (!read.success) return { wrong: read.error.issues[0]?.message ?? '' };
		return { is: { written: `${shape}, ${answer}`, read: read.data } };
	});
}

/** Asks for one more part; null: there is no other. A shape of the shelf has its sizes, and says how it is held. */
export function* partQuestions(
	parts: readonly PartDrafted[],
	shelf: Shelf,
	after: number,
): Asking<PartDrafted | null> {
	const isFirst = parts.length === 0;
	const first: Put = {
		question: 'part',
		say: isFirst ? 'What is painted, and how many of it?' : 'Another part?',
		means: 'Parts alike go in one line; the number, then what one is called.',
		like: '8 x frame',
		...(!isFirst && { may: true }),
		ahead: after + (isFirst ? 4 : 0),
	};
	const named = yield* ask(
		first,
		(answer): Read<Named | null> => (answer === '' && !isFirst ? { is: null } : namedParts(answer, parts)),
	);
	if (!named) return null;
	const { name } = named;
	const own = namesOn(shelf, 'shape').filter(one => shapeOn(shelf, one));
	const chosen = yield* ask(
		{
			...{
				question: 'shape',
				say: `Shape of ${name}?`,
				means: 'Its faces, areas and strokes follow from it.',
			},
			...{ choices: [...own, ...shapeNames], ahead: after + 3 },
		},
		oneOf([...own, ...shapeNames]),
	);
	const onShelf = shapeOn(shelf, chosen);
	const shape = onShelf
		? { written: chosen, read: onShelf.read }
		: yield* sizesQuestion(chosen, name, after + 2);
	const ways = {
		...{
			question: 'held',
			say: `How is ${name} held?`,
			means: 'On points it lies, and is turned over between.',
		},
		...{ choices: waysHeld, ahead: after + 1 },
	};
	const held = onShelf?.held ?? (yield* ask(ways, oneOf(waysHeld)));
	const faces = facesOfShape({ shape: { value: shape.read, at: 0 }, held, fan_mm: 0, name }, []);
	return {
		...named,
		shape: shape.written,
		held,
		faces: faces.flatMap(({ values }) => values.face?.value ?? []),
	};
}
