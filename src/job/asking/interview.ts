import { notAllowed } from '../errors.ts';
import { brief } from '../inert.ts';
import { name as nameRead } from '../values.ts';
import { type Drafted, facesOfAll, type SprayDrafted } from './drafted.ts';
import { type Asked, ending, type Outcome, startQuestion } from './ending.ts';
import { partQuestions } from './part-questions.ts';
import { prepRead, prepSaid } from './preparation.ts';
import { type Asking, ask, choiceOf, type Read } from './question.ts';
import { leftQuestion, moreQuestion } from './rest-questions.ts';
import { loadedOf, sheetText, wrongSoFar } from './sheet-written.ts';
import { type Growing, shopQuestions } from './shelf-questions.ts';
import { sprayQuestions } from './spray-questions.ts';

/** The questions that a job sheet comes of, in their order. */

function* preparations(drafted: Drafted, growing: Growing): Asking<readonly SprayDrafted[]> {
	const choices = ['as offered', 'change'];
	const shown = drafted.sprays.map(({ material, prep }) => `before ${material}: ${prepSaid(prep)}`);
	const put = {
		question: 'preparation',
		say: 'Preparation, by the recoat windows?',
		means: 'What each coat wants of the one under it, by the data sheets.',
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
			means: 'A night or a wait first, then each step in its order.',
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

/** A name for a job. */
export function nameAnswered(answer: string): Read<string> {
	const read = nameRead.safeParse(answer);
	if (answer === '' || !read.success)
		return { wrong: read.success ? 'a name is wanted' : (read.error.issues[0]?.message ?? '') };
	return { is: read.data };
}

/** A name that no job with days has: a day is told from others by it. */
function freeName(answer: string, { hasDays = () => false }: Asked): Read<string> {
	const read = nameAnswered(answer);
	return 'is' in read && hasDays(read.is)
		? { wrong: `${brief(read.is)} has days already: go on with it by its own sheet, or give another name` }
		: read;
}

/** How one goes on, back and away; said with the first question. */
export const howTo = 'Enter takes what is offered. back: one back. leave: another time. ?: explains.';
export const nameMeans = 'The picker, its days and its reports call it so.';

/** Every question of a new sheet. */
export function* interview(asked: Asked): Asking<Outcome> {
	const growing: Growing = { shelf: asked.shelf };
	const name = yield* ask(
		{
			...{
				question: 'name',
				say: 'What is the job called?',
				means: nameMeans,
				like: 'Eight garden chairs',
				ahead: 12,
			},
			shown: [howTo],
		},
		answer => freeName(answer, asked),
	);
	let drafted: Drafted = { name, parts: [], sprays: [], start: null };
	const { shelf: first } = growing;
	for (
		let part = yield* partQuestions([], first, 8);
		part;
		part = yield* partQuestions(drafted.parts, first, 8)
	)
		drafted = { ...drafted, parts: [...drafted.parts, part] };
	growing.turns = drafted.parts.some(({ held }) => held === 'on points');
	const shop = yield* shopQuestions(growing, 8);
	const sofar = () => ({ drafted, growing, shop });
	for (let more = yield* sprayQuestions(sofar(), 4); more; more = yield* sprayQuestions(sofar(), 4))
		drafted = { ...drafted, sprays: more };
	for (let left = yield* leftQuestion(sofar(), 4); left; left = yield* leftQuestion(sofar(), 4))
		drafted = { ...drafted, sprays: [...drafted.sprays, left] };
	if (facesOfAll(drafted.parts).length > 1)
		for (let more = yield* moreQuestion(sofar(), 3); more; more = yield* moreQuestion(sofar(), 3))
			drafted = { ...drafted, sprays: more };
	drafted = { ...drafted, sprays: yield* preparations(drafted, growing) };
	drafted = { ...drafted, start: yield* startQuestion(asked, growing.shelf) };
	const { shelf } = growing;
	const text = (usual: readonly string[]) => sheetText(drafted, usual);
	return yield* ending({ name, start: drafted.start, loaded: loadedOf(drafted, shelf), text, shelf }, asked);
}
