import { byDateList } from '../../src/by-date/list.ts';
import { byDateQuestion } from '../../src/cli/ask-by-date.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import type { View } from '../../src/day/view.ts';
import { press } from '../../src/screen/keys/key.ts';
import { learningStart, learnKey } from '../../src/screen/learn.ts';
import { oneQuestion } from '../../src/screen/one-question.ts';
import { openPicker } from '../../src/screen/picker.ts';
import { learningView } from '../../src/screen/teach-keys.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { exampleSheet, fortyFaces } from '../voice/said.ts';
import { kindOf, playCuriously } from './curious.ts';
import { scripts } from './scripts.ts';

/** Every screen of whole days that are rehearsed in all sorts of ways, and of the picker before them. */

const sheet = (name: string) => ({ path: `${name}.yaml`, name, openDay: null });
const day = { path: 'cart.day', name: 'coffee cart', began: '2 March' };

/** The screens beside a day: a sheet is picked, keys are taught. */
function viewsBeside(): View[] {
	const picker = openPicker([sheet('the example'), sheet('stools')], [day], () => '2027-03-02T08:00:00.000Z');
	const first = picker.session.view();
	picker.session.answer({ key: 'topRight' });
	const at = '1970-01-01T00:00:00.000Z';
	const { caution, items } = byDateList();
	const byDate = items.map((item, index) => byDateQuestion(item, index === 0 ? caution : null));
	const { state } = learnKey(learningStart, press('q'), 'us');
	return [
		first,
		picker.session.view(),
		...byDate.map(question => oneQuestion(question, () => at).session.view()),
		learningView(state, at),
		learningView({ at: 'hold', keys: { ...learningStart.keys, topLeft: ['q'] } }, at),
	];
}

const curiousDays = 12;
const stepsOf = 380;

async function playedKinds(): Promise<Map<string, View[]>> {
	const kinds = new Map<string, Map<string, View>>();
	const look = (view: View) => {
		const kind = kinds.get(kindOf(view)) ?? new Map<string, View>();
		kinds.set(kindOf(view), kind);
		const said = JSON.stringify([view.say, view.lines, view.corners]);
		if (!kind.has(said)) kind.set(said, view);
	};
	const watch = (line: Line) => look({ ...line, rehearsal: false });
	for (const view of viewsBeside()) look(view);
	for (const { options, play } of scripts) play(rehearsed({ ...options, watch }));
	const sheets = [await exampleSheet(), { job: smallJob(), lists: smallLists() }, await fortyFaces()];
	const tried = new Set<string>();
	for (let seed = 1; seed <= curiousDays; seed++) {
		const of = seed % 2 ? sheets[0] : sheets[seed % 4 ? 1 : 2];
		const by = seed % 4 < 2 ? 'stretch' : 'face';
		const settings = { by, cards: seed % 3 === 0, units: 'us' } as const;
		playCuriously({ ...of, seed, settings }, stepsOf, tried, look);
	}
	return new Map([...kinds].map(([kind, views]) => [kind, [...views.values()]]));
}

let played: ReturnType<typeof playedKinds> | undefined;

/** @returns the views of each kind, all that differ in what they say; played once for whoever asks */
export function liveKinds(): Promise<ReadonlyMap<string, readonly View[]>> {
	played ??= playedKinds();
	return played;
}
