import type { View } from '../day/view.ts';

type Shown = {
	view(): View;
	answer(answer: never): { accepted: boolean };
};

/** A session that can be told something beside its own: shown until the next answer, never while a face is sprayed. */
export function told<Session extends Shown>(
	session: Session,
): { session: Session; tell(text: string): void } {
	let waiting: string[] = [];
	let shown = false;
	return {
		tell(text) {
			waiting = [...waiting, text];
		},
		session: {
			...session,
			view() {
				const view = session.view();
				if (view.ask === 'spraying' || waiting.length === 0) return view;
				shown = true;
				return { ...view, lines: [...waiting, ...view.lines] };
			},
			answer(given: never) {
				const outcome = session.answer(given);
				if (outcome.accepted && shown) waiting = [];
				shown = false;
				return outcome;
			},
		},
	};
}
