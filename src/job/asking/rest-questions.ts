import { notAllowed } from '../errors.ts';
import {
	type Drafted,
	type FaceDrafted,
	faceName,
	facesMeant,
	facesOfAll,
	isAmong,
	isSame,
	namesFor,
	type SprayDrafted,
} from './drafted.ts';
import { coatsRead, fitting, kindsOf, type Sofar } from './fitting.ts';
import { type Asking, ask, choiceOf, type Put, type Read } from './question.ts';
import { wrongSoFar } from './sheet-written.ts';

/** Faces that are left over, and faces that get other coats. */

/** The faces that got fewer sprays than others. */
export function leftOver({ parts, sprays }: Drafted): FaceDrafted[] {
	const counts = facesOfAll(parts).map(face => ({
		face,
		count: sprays.filter(spray => isAmong(spray.faces, face)).length,
	}));
	const most = Math.max(...counts.map(({ count }) => count));
	return counts.filter(({ count }) => count < most).map(({ face }) => face);
}

/** The faces left over: the last material again, another day? */
export function* leftQuestion(sofar: Sofar, ahead: number): Asking<SprayDrafted | null> {
	const { drafted } = sofar;
	const [left, last] = [leftOver(drafted), drafted.sprays.at(-1)];
	if (left.length === 0 || !last) return null;
	const names = namesFor(left, drafted.parts);
	const choices = ['yes', 'no'];
	const put = {
		question: 'left over',
		say: `${last.material}: the rest, too, another day?`,
		means: 'The other faces get the same coats, from the next morning on.',
		choices,
		offered: 'yes',
	};
	return yield* ask(
		{ ...put, shown: [`left over: ${names.join(', ')}`], ahead },
		(answer): Read<SprayDrafted | null> => {
			const chosen = choiceOf(choices, answer);
			if (chosen === undefined) return { wrong: notAllowed(answer, choices) };
			if (chosen === 'yes')
				return fitting(sofar, {
					material: last.material,
					gun: last.gun,
					faces: left,
					coats: last.coats,
					own: [],
					nextDay: true,
				});
			const bare = left.filter(face => !drafted.sprays.some(spray => isAmong(spray.faces, face)));
			if (bare.length === 0) return { is: null };
			return { wrong: `no spray reaches ${namesFor(bare, drafted.parts).join(', ')}: yes, or back` };
		},
	);
}

/** A face with other coats in its last spray; null: none. */
export function* moreQuestion({ drafted, growing }: Sofar, ahead: number): Asking<SprayDrafted[] | null> {
	const { parts, sprays } = drafted;
	const [first] = facesOfAll(parts);
	const like = first ? `${faceName(first)}: 3 ${kindsOf(growing, sprays.at(-1)?.material ?? '').at(-1)}` : '';
	const means = 'A face that wears more gets one more than the others.';
	const put: Put = { question: 'more coats', say: 'Other coats on any face?', means, like, may: true, ahead };
	return yield* ask(put, (answer): Read<SprayDrafted[] | null> => {
		if (answer === '') return { is: null };
		const [, said = '', coated = ''] = /^([^:]+):(.*)$/.exec(answer) ?? [];
		const faces = facesMeant(said.trim(), parts);
		if (faces.length === 0) return { wrong: `write it as in "${like}"` };
		const last = sprays.findLastIndex(spray => faces.some(face => isAmong(spray.faces, face)));
		const spray = sprays[last];
		if (!spray) return { wrong: `no spray reaches ${said.trim()}` };
		const coats = coatsRead(coated.trim(), kindsOf(growing, spray.material));
		if ('wrong' in coats) return coats;
		const its = faces.filter(face => isAmong(spray.faces, face)).map(face => ({ face, coats: coats.is }));
		const others = spray.own.filter(({ face }) => !its.some(one => isSame(one.face, face)));
		const changed = sprays.with(last, { ...spray, own: [...others, ...its] });
		const wrong = wrongSoFar({ ...drafted, sprays: changed }, growing.shelf);
		return wrong === null ? { is: changed } : { wrong };
	});
}
