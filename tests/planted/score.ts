import { codes, type Spot } from './causes.ts';
import type { PlantedDay } from './day.ts';

/** How right an answer is. */

export type Answer = {
	/** Likeliest first. */
	codes: readonly string[];
	/** It says that a record tells it. */
	told: boolean;
	exposed?: readonly Spot[];
	/** Faces to look at, in order. */
	inspect?: readonly Spot[];
};

export type Scored = {
	truth: readonly string[];
	isSaid: boolean;
	first: boolean;
	three: boolean;
	absent: boolean;
	toldWrong: boolean;
	/** Share of the passes that had it which are exposed, and how many are. */
	recall: number | null;
	exposed: number | null;
	/** Faces looked at until another one shows it; null: no other does, or none is named. */
	looks: number | null;
};

/** The truth of a day with two causes is either of them; of one with none, nothing, and only what is told can be wrong. */
export function scored({ truth, shown, question }: PlantedDay, answer: Answer): Scored {
	const own: string[] = truth.map(({ cause }) => cause.code);
	const isOwn = (code: string | undefined) => code !== undefined && own.includes(code);
	const had = truth.flatMap(({ extent }) => extent);
	const reached = answer.exposed
		? had.filter(spot => answer.exposed?.some(({ face, coat }) => face === spot.face && coat === spot.coat))
		: null;
	const others = new Set(shown.map(({ face }) => face).filter(face => face !== question.face));
	const walk = [...new Set((answer.inspect ?? []).map(({ face }) => face))].filter(
		face => face !== question.face,
	);
	const at = walk.findIndex(face => others.has(face));
	return {
		truth: own,
		isSaid: truth.some(({ saidBy }) => saidBy !== null),
		first: isOwn(answer.codes[0]),
		three: answer.codes.slice(0, 3).some(isOwn),
		absent: !answer.codes.some(isOwn),
		toldWrong: answer.told && !isOwn(answer.codes[0]),
		recall: reached && had.length > 0 ? reached.length / had.length : null,
		exposed: answer.exposed?.length ?? null,
		looks: others.size === 0 || at < 0 ? null : at + 1,
	};
}

const percent = (part: number, all: number): string =>
	all === 0 ? '–' : `${((100 * part) / all).toFixed(1)}`;

/** Wilson's interval at 95 %, in percent. */
function interval(part: number, all: number): string {
	if (all === 0) return '–';
	const z = 1.96;
	const share = part / all;
	const middle = share + (z * z) / (2 * all);
	const half = z * Math.sqrt((share * (1 - share)) / all + (z * z) / (4 * all * all));
	const end = (value: number) => ((100 * value) / (1 + (z * z) / all)).toFixed(0);
	return `${end(middle - half)}–${end(middle + half)}`;
}

const mean = (values: readonly (number | null)[]): string => {
	const known = values.filter(value => value !== null);
	return known.length === 0 ? '–' : (known.reduce((sum, one) => sum + one, 0) / known.length).toFixed(2);
};

type Row = [name: string, asked: readonly Scored[], best: readonly Scored[]];

function line([name, asked, best]: Row): string {
	const of = (scores: readonly Scored[], what: 'first' | 'three' | 'absent' | 'toldWrong') =>
		scores.filter(one => one[what]).length;
	const all = asked.length;
	const cells = [
		name,
		String(all),
		`${percent(of(asked, 'first'), all)} (${interval(of(asked, 'first'), all)})`,
		percent(of(asked, 'three'), all),
		percent(of(asked, 'absent'), all),
		percent(of(asked, 'toldWrong'), all),
		mean(asked.map(({ recall }) => recall)),
		mean(asked.map(({ exposed }) => exposed)),
		mean(asked.map(({ looks }) => looks)),
		percent(of(best, 'first'), all),
		percent(of(best, 'three'), all),
	];
	return `| ${cells.join(' | ')} |`;
}

/** @param missing codes that the fault table lacks */
export function tableOf(
	asked: readonly Scored[],
	best: readonly Scored[],
	missing: readonly string[],
): string {
	const row = (name: string, has: (one: Scored) => boolean): Row => [
		name,
		asked.filter(has),
		best.filter(one => has(one)),
	];
	const is = (count: number) => (one: Scored) => one.truth.length === count;
	const caused = ({ truth }: Scored) => truth.length > 0;
	const rows: Row[] = [
		row('all with a cause', caused),
		row('a record says it', one => caused(one) && one.isSaid),
		row('no record says it', one => caused(one) && !one.isSaid),
		row(
			'codes of the table',
			one => caused(one) && !one.truth.some(code => missing.some(lack => lack === code)),
		),
		row('one cause', is(1)),
		row('two causes', is(2)),
		row('no cause', is(0)),
		...codes.map(code => row(code, one => one.truth.includes(code))),
	];
	const head = [
		'',
		'days',
		'first % (95 %)',
		'first three %',
		'absent %',
		'told and wrong %',
		'exposed recall',
		'exposed',
		'looks',
		'ceiling first %',
		'ceiling three %',
	];
	return [`| ${head.join(' | ')} |`, `|${head.map(() => ' --- ').join('|')}|`, ...rows.map(line)].join('\n');
}
