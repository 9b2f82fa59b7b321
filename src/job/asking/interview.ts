import { notAllowed } from '../errors.ts';
import type { Job } from '../job.ts';
import type { Shelf, ShelfFile } from '../shelf.ts';
import { name as nameRead } from '../values.ts';
import { type Drafted, facesOfAll, type SprayDrafted } from './drafted.ts';
import { partQuestions } from './part-questions.ts';
import { prepRead, prepSaid } from './preparation.ts';
import { type Asking, ask, choiceOf, type Read } from './question.ts';
import { leftQuestion, moreQuestion } from './rest-questions.ts';
import { loadedOf, sheetText, wrongSoFar } from './sheet-written.ts';
import { type Growing, shopQuestions } from './shelf-questions.ts';
import { sprayQuestions } from './spray-questions.ts';

/** The questions that a job sheet comes of, in their order. */

export type Asked = {
	/** The shelf before anything is asked for. */
	shelf: Shelf;
	/** Offered for the first day and hour, `2027-03-02 08:00`. */
	morning: string;
	/** The plan of a job from its first hour on, in lines; null: the hour is still to do. */
	planned(job: Job, start: string | null): string[];
	/** What nobody measured. */
	usual(job: Job): string[];
};

/** A sheet to write, with what the shelf lacks. */
export type Whole = { text: string; name: string; lacking: ShelfFile[] };
/** `backTo`: the question to go back to, by its number; null: left. */
export type Outcome = Whole | { backTo: number } | null;

function* preparations(drafted: Drafted, growing: Growing): Asking<readonly SprayDrafted[]> {
	const choices = ['as offered', 'change'];
	const shown = drafted.sprays.map(({ material, prep }) => `before ${material}: ${prepSaid(prep)}`);
	const put = {
		question: 'preparation',
		say: 'Preparation, by the recoat windows?',
		choices,
		offered: 'as offered',
	};
	const chosen = yield* ask({ ...put, shown, ahead: 2 }, (answer): Read<string> => {
		const found = choiceOf(choices, answer);
		return found === undefined ? { wrong: notAllowed(answer, choices) } : { is: found };
	});
	let sprays = drafted.sprays;
	if (chosen === 'as offered') return sprays;
	for (const [nth, spray] of drafted.sprays.entries()) {
		const say = `What is done before ${spray.material}?`;
		const one = {
			question: 'prep',
			say,
			like: 'overnight, sand 320 grit, wipe, tack',
			offered: prepSaid(spray.prep),
		};
		const before = sprays;
		sprays = yield* ask(
			{ ...one, ahead: 1 + sprays.length - nth },
			(answer): Read<readonly SprayDrafted[]> => {
				const prep = prepRead(answer);
				if ('wrong' in prep) return prep;
				const changed = before.with(nth, { ...spray, prep: prep.is });
				const wrong = wrongSoFar({ ...drafted, sprays: changed }, growing.shelf);
				return wrong === null ? { is: changed } : { wrong };
			},
		);
	}
	return sprays;
}

const dayForm = /^\d{4}-(\d{2})-(\d{2}) ([01]\d|2[0-3]):[0-5]\d$/;

/** `2027-03-02 08:00`, of a day that there is. */
function startRead(answer: string): Read<string | null> {
	if (answer === '-') return { is: null };
	const day = new Date(`${answer.slice(0, 10)}T00:00:00Z`);
	const isDay =
		dayForm.test(answer) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(answer.slice(0, 10));
	return isDay ? { is: answer } : { wrong: 'write it as in "2027-03-02 08:00"; - leaves it to do' };
}

const endings = ['WRITE', 'CHANGE', 'LEAVE'] as const;

/** The plan, and what becomes of it. */
function* ending(drafted: Drafted, growing: Growing, { shelf, planned, usual }: Asked): Asking<Outcome> {
	const loaded = loadedOf(drafted, growing.shelf);
	const said = loaded.ok ? usual(loaded.job) : [];
	const shown = loaded.ok
		? [...planned(loaded.job, drafted.start), ...said]
		: loaded.errors.map(error => error.says);
	const put = { question: 'write', say: 'The sheet: write it?', choices: endings, shown, ahead: 0 };
	const chosen = yield* ask({ ...put, ...(loaded.ok && { offered: 'WRITE' }) }, (answer): Read<string> => {
		const found = choiceOf(endings, answer);
		if (found === undefined) return { wrong: notAllowed(answer, endings) };
		return found === 'WRITE' && !loaded.ok ? { wrong: 'a sheet with errors is not written' } : { is: found };
	});
	if (chosen === 'LEAVE') return null;
	if (chosen === 'WRITE') {
		const lacking = growing.shelf.files.filter(file => !shelf.files.includes(file));
		return { text: sheetText(drafted, said), name: drafted.name, lacking };
	}
	const which = { question: 'change', say: 'Back to which question, by its number?', like: '6', ahead: 1 };
	return yield* ask(
		which,
		(answer): Read<Outcome> =>
			/^[1-9]\d{0,2}$/.test(answer) ? { is: { backTo: Number(answer) } } : { wrong: 'a number is wanted' },
	);
}

/** Every question of a new sheet. */
export function* interview(asked: Asked): Asking<Outcome> {
	const growing: Growing = { shelf: asked.shelf };
	const name = yield* ask(
		{
			...{ question: 'name', say: 'What is the job called?', like: 'Eight garden chairs', ahead: 12 },
			shown: ['Enter takes what is offered. back: one back. leave: another time.'],
		},
		answer => {
			const read = nameRead.safeParse(answer);
			if (answer === '' || !read.success)
				return { wrong: read.success ? 'a name is wanted' : (read.error.issues[0]?.message ?? '') };
			return { is: read.data };
		},
	);
	let drafted: Drafted = { name, gun: null, parts: [], sprays: [], start: null };
	for (let part = yield* partQuestions([], 8); part; part = yield* partQuestions(drafted.parts, 8))
		drafted = { ...drafted, parts: [...drafted.parts, part] };
	const shop = yield* shopQuestions(growing, 8);
	const sofar = () => ({ drafted, growing, shop });
	for (let more = yield* sprayQuestions(sofar(), 4); more; more = yield* sprayQuestions(sofar(), 4))
		drafted = { ...drafted, ...more };
	for (let left = yield* leftQuestion(sofar(), 4); left; left = yield* leftQuestion(sofar(), 4))
		drafted = { ...drafted, sprays: [...drafted.sprays, left] };
	if (facesOfAll(drafted.parts).length > 1)
		for (let more = yield* moreQuestion(sofar(), 3); more; more = yield* moreQuestion(sofar(), 3))
			drafted = { ...drafted, sprays: more };
	drafted = { ...drafted, sprays: yield* preparations(drafted, growing) };
	const first = {
		question: 'start',
		say: 'First day and hour?',
		like: asked.morning,
		offered: asked.morning,
		ahead: 1,
	};
	drafted = { ...drafted, start: yield* ask(first, startRead) };
	return yield* ending(drafted, growing, asked);
}
