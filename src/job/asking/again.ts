import { type Changeable, type Changes, changed } from '../again.ts';
import { type Loaded, parseJob } from '../load.ts';
import { wholeNumber } from '../values.ts';
import { type Asked, ending, type Outcome, startLine, startQuestion } from './ending.ts';
import { howTo, nameAnswered, nameMeans } from './interview.ts';
import { mostParts } from './part-questions.ts';
import { type Asking, ask, type Read } from './question.ts';
import { fromShelf, type Growing } from './shelf-questions.ts';

/** The same job again: only what may be another is asked, and offered as it was. */

export type Again = {
	/** The sheet, without what is said anew of each job: `withoutHead`. */
	text: string;
	file: string;
	can: Changeable;
	/** Why a name cannot be used for another job; null: it can. */
	nameTaken(name: string): string | null;
};

/** What is said anew of each job: first day, what is usual, and which job it was before. */
const head = /^# (?:again: .*|first day: .*|to do: first day and hour|.* usual, not measured)\r?\n/gm;
export const withoutHead = (text: string): string => text.replace(/^\uFEFF/, '').replaceAll(head, '');

/** Its name with the next number that is free. */
function offeredName({ can: { name }, nameTaken }: Again): string {
	const [, stem = name, nth = '1'] = /^(.*\S) (\d{1,3})$/.exec(name) ?? [];
	for (let count = Number(nth) + 1; ; count++)
		if (nameTaken(`${stem} ${count}`) === null) return `${stem} ${count}`;
}

/** What is wrong with the sheet as it is changed so far; what later answers may mend apart. */
function wrongIn(loaded: Loaded, later: readonly string[]): string | null {
	const errors = loaded.ok ? [] : loaded.errors;
	return errors.find(({ says }) => !later.some(name => says.includes(name)))?.says ?? null;
}

/** Asks what of a job is another this time. */
export function* again(sheet: Again, asked: Asked): Asking<Outcome> {
	const { text, file, can, nameTaken } = sheet;
	const asWas = parseJob(text, file, () => asked.shelf);
	const turns =
		asWas.ok && asWas.job.stages.some(stage => stage.kind === 'prep' && stage.step === 'turn over');
	const growing: Growing = { shelf: asked.shelf, turns };
	const loadedOf = (changes: Changes) => parseJob(changed(text, changes), file, () => growing.shelf);
	let ahead = can.parts.length + can.materials.length + 2;
	const offered = offeredName(sheet);
	const first = {
		question: 'name',
		say: 'What is this job called?',
		means: nameMeans,
		like: offered,
		offered,
		ahead,
	};
	const name = yield* ask({ ...first, shown: [`As ${can.name}. ${howTo}`] }, (answer): Read<string> => {
		const read = nameAnswered(answer);
		const taken = 'is' in read ? nameTaken(read.is) : null;
		return taken === null ? read : { wrong: taken };
	});
	let changes: Changes = { name, counts: new Map(), materials: new Map() };
	for (const part of can.parts) {
		const was = String(part.count ?? 1);
		const means = 'How many alike there are this time.';
		const put = { question: 'count', say: `How many of ${part.name}?`, means, offered: was, ahead: --ahead };
		changes = yield* ask(put, (answer): Read<Changes> => {
			const count = wholeNumber(1, mostParts).safeParse(answer);
			if (!count.success) return { wrong: `allowed: 1 to ${mostParts} of them` };
			const now = { ...changes, counts: new Map(changes.counts).set(part.name, count.data) };
			const wrong = wrongIn(loadedOf(now), []);
			return wrong === null ? { is: now } : { wrong };
		});
	}
	for (const [nth, was] of can.materials.entries()) {
		const now = (chosen: string): Changes => ({
			...changes,
			materials: new Map(changes.materials).set(was, chosen),
		});
		const later = can.materials.slice(nth + 1);
		const means = 'What is sprayed where that was, or that again.';
		const put = { question: 'material', say: `In place of ${was}?`, means, offered: was, ahead: --ahead };
		const chosen = yield* fromShelf(growing, 'material', { ...put, own: can.own }, one =>
			wrongIn(loadedOf(now(one)), later),
		);
		if (chosen !== null) changes = now(chosen);
	}
	const start = yield* startQuestion(asked, growing.shelf);
	const loaded = loadedOf(changes);
	const { shelf } = growing;
	const written = (usual: readonly string[]) =>
		[`# again: ${can.name}`, ...usual.map(one => `# ${one}`), startLine(start), changed(text, changes)].join(
			'\n',
		);
	return yield* ending({ name, start, loaded, text: written, shelf }, asked);
}
