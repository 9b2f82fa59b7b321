import { notAllowed } from '../errors.ts';
import { type FaceDrafted, faceName, facesMeant, facesOfAll, isAmong, type SprayDrafted } from './drafted.ts';
import { coatsRead, fitting, kindsOf, pieces, prepared, type Sofar } from './fitting.ts';
import { gunsMeasured, namesOn } from './on-shelf.ts';
import { type Asking, ask, choiceOf, type Read } from './question.ts';
import { wrongSoFar } from './sheet-written.ts';
import { fromShelf } from './shelf-questions.ts';

/** What is sprayed, on which faces, in which coats, with which gun. */

function* facesQuestion(sofar: Sofar, material: string, ahead: number): Asking<FaceDrafted[]> {
	const { parts } = sofar.drafted;
	const all = facesOfAll(parts);
	if (all.length === 1) return all;
	const several = parts.filter(({ faces }) => faces.length > 1);
	const names = [...parts.map(({ name }) => name), ...facesOfAll(several).map(faceName)];
	const put = {
		...{ question: 'faces', means: 'Parts, or faces of them; the others get none of it.' },
		...{ say: `${material}: on which faces?`, like: names.slice(0, 2).join(', ') },
		...{ choices: ['all', ...names], offered: 'all', ahead },
	};
	return yield* ask(put, (answer): Read<FaceDrafted[]> => {
		const said = pieces(answer).map(one => choiceOf(['all', ...names], one) ?? one);
		const unknown = said.find(one => one !== 'all' && facesMeant(one, parts).length === 0);
		if (unknown !== undefined || said.length === 0)
			return { wrong: notAllowed(unknown ?? answer, ['all', ...names]) };
		const meant = said.flatMap(one => (one === 'all' ? all : facesMeant(one, parts)));
		const faces = all.filter(face => isAmong(meant, face));
		const found = prepared(sofar, { material, faces, coats: [], own: [], nextDay: false, gun: null });
		return 'wrong' in found ? found : { is: faces };
	});
}

/** Asks for one more spray; null: there is no other. */
export function* sprayQuestions(
	{ drafted, growing, shop }: Sofar,
	after: number,
): Asking<SprayDrafted[] | null> {
	const isFirst = drafted.sprays.length === 0;
	const material = yield* fromShelf(growing, 'material', {
		question: 'material',
		say: isFirst ? 'Which material first?' : 'Another material?',
		means: 'What is sprayed next; NEW asks for its data sheet.',
		...(!isFirst && { may: true }),
		ahead: after + (isFirst ? 4 : 0),
	});
	if (material === null) return null;
	const sofar = { drafted, growing, shop };
	const faces = yield* facesQuestion(sofar, material, after + 3);
	const kinds = kindsOf(growing, material);
	const put = {
		...{ question: 'coats', say: `${material}: which coats?`, like: `2 ${kinds.at(-1)}` },
		means: 'Kinds of coat one after another, each with its number.',
		ahead: after + 2,
	};
	const spray = yield* ask(put, (answer): Read<SprayDrafted> => {
		const coats = coatsRead(answer, kinds);
		if ('wrong' in coats) return coats;
		return fitting(sofar, { material, faces, coats: coats.is, own: [], nextDay: false, gun: null });
	});
	const { shelf } = growing;
	const [measured] = gunsMeasured(shelf, material);
	const [only, ...others] = namesOn(shelf, 'gun');
	const likely = measured ?? drafted.sprays.at(-1)?.gun ?? (others.length === 0 ? only : undefined);
	const withGun = (gun: string | null) => [...drafted.sprays, { ...spray, gun }];
	const asked = {
		...{ question: 'gun', say: `${material}: with which gun?`, ahead: after + 1 },
		means: 'The one whose fan and flow were measured with it; NEW asks.',
		...(likely !== undefined && { offered: likely }),
	};
	const gun = yield* fromShelf(growing, 'gun', asked, name =>
		wrongSoFar({ ...drafted, sprays: withGun(name) }, growing.shelf),
	);
	return withGun(gun);
}
