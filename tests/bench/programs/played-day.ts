import { realClock } from '../../../src/day/clock.ts';
import { noHistory } from '../../../src/day/history.ts';
import { openingRecord } from '../../../src/day/open.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import type { Line } from '../../../src/day/rehearsal.ts';
import { runningClock } from '../../../src/day/running-clock.ts';
import { openSession } from '../../../src/day/session.ts';
import { standardSettings } from '../../../src/day/standard-settings.ts';
import type { Answer, Corner } from '../../../src/day/view.ts';
import { loadLists } from '../../../src/job/lists.ts';
import { loadJob } from '../../../src/job/load.ts';
import { painterOf } from '../../../src/painter/painter.ts';
import { parseQuantity } from '../../../src/trade/quantity.ts';

const start = Date.parse('2027-03-02T08:00:00Z');
const sheet = 'checklists/example/coffee-cart.yaml';

const cornerOf = (word: string) =>
	word.replace(/-(.)/, (_, letter: string) => letter.toUpperCase()) as Corner | 'hold';

const closes = (given: string, { corners }: Line): boolean => {
	const corner = cornerOf(given);
	return corner !== 'hold' && corners[corner]?.code === 'close';
};

/** The example day in memory, on a clock that runs on and is put forward, answered by the scripted painter. */
export async function playedDay(real = realClock()) {
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example sheet does not load');
	const listed = await loadLists(loaded.job, sheet);
	if (!listed.ok) throw new Error('the lists do not load');
	const opening = {
		job: loaded.job,
		lists: listed.lists,
		settings: standardSettings,
		clock: 'moved' as const,
	};
	const records: DayRecord[] = [
		openingRecord({ ...opening, program: '0.0.0', before: noHistory, zone: 'UTC' }, { wall: start, mono: 0 }),
	];
	const clock = runningClock(real, start);
	const sink = {
		records: [...records],
		append: (made: readonly DayRecord[]) => void records.push(...made),
		close() {},
	};
	const session = openSession({ sink, clock, rehearsal: true });
	const painter = painterOf(loaded.job, () => session.state());
	/** What the painter does at the screen that stands there; false: nothing is left but to close the day. */
	const step = (): boolean => {
		const { rehearsal: _, ...view } = session.view();
		const line: Line = { ...view, events: [], accepted: true };
		const given = painter.answer(line);
		if (given === null || closes(given, line)) return false;
		const [word = '', ...rest] = given.split(' ');
		if (word === 'wait') {
			const length = parseQuantity(rest.join(' '), 'time');
			clock.forward((length.ok ? length.value : 1) * 1000);
			session.tick();
			return true;
		}
		const answer: Answer = word === 'number' ? { number: Number(rest[0]) } : { key: cornerOf(word) };
		session.answer(answer);
		return true;
	};
	return { session, clock, records, step };
}
