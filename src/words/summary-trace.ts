import { clockOn, clocksOver } from './clock.ts';
import { short, shortFace, spoken } from './spoken.ts';

type Spot = { face: string; coat: number };
type Because = {
	code: string;
	form: string | null;
	at: string;
	for: readonly string[];
	against: readonly string[];
};
/** What the sentences need of a trace. */
export type Traced = {
	word: 'told' | 'likely' | 'perhaps' | 'cannot tell';
	isIsNot: string;
	bracket: { from: string; to: string };
	open: readonly Spot[];
	faces: readonly (Spot & { likely: boolean })[];
	walk: readonly { face: string | null; do: string }[];
	candidates: readonly Because[];
	two: readonly string[] | null;
	none: boolean;
};
type Said = {
	fault: string;
	face: string;
	coat: number;
	zone: string;
	causes: Record<string, { say: string; check: string }>;
};

const many = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;
const place = ({ face, coat }: Spot): string => `${shortFace(face)}, coat ${coat}`;

/** Words of a sentence that is said whole or not at all. */
const fits = (most: number) => (text: string) => text.split(/\s+/u).length <= most;

/** A cause as it is said, with its form: `pressure not as set, low`. */
export function causeSaid({ code, form }: Pick<Because, 'code' | 'form'>, causes: Said['causes']): string {
	const say = short(causes[code]?.say ?? code, 7);
	return form === null ? say : `${say}, ${form.replace('-', ' ')}`;
}

/** How the instants of a trace are said: with their dates where they do not all fall on one day. */
export function timesOf(
	{ bracket, candidates }: Pick<Traced, 'bracket'> & { candidates: readonly { at: string }[] },
	zone: string,
) {
	const instants = [bracket.from, bracket.to, ...candidates.map(({ at }) => at)];
	const said = clocksOver(instants.map(Date.parse), zone);
	return (at: string): string => said(Date.parse(at));
}

const words: Record<Traced['word'], string> = {
	told: 'Told',
	likely: 'Likely',
	perhaps: 'Perhaps',
	'cannot tell': 'First',
};

/**
 * A trace in spoken sentences, at most 12 words each: what the bad faces have and the sound ones have not, what was
 * asked, what may be claimed of the first cause and why, what else, where it began, where to look first.
 * @param said fault in words, the face asked about, the time zone of the day and the causes in words
 */
export function traceSentences(trace: Traced, said: Said): string[] {
	const cause = (one: Because) => causeSaid(one, said.causes);
	const [first, ...others] = trace.candidates;
	const next = trace.walk[0];
	const time = timesOf(trace, said.zone);
	const until = clockOn(Date.parse(trace.bracket.to), Date.parse(trace.bracket.from), said.zone);
	const likely = trace.faces.filter(one => one.likely).length;
	const because = (topic: string, reasons: readonly string[]) =>
		reasons
			.filter(fits(10))
			.slice(0, 1)
			.map(reason => spoken(topic, reason));
	return [
		...trace.isIsNot.split(/(?<=\.) |(?<=;) /u).map(text => spoken(text.replace(/[.;]$/u, ''))),
		spoken(short(said.fault, 4), place(said)),
		...(trace.word === 'cannot tell' ? [spoken('Records', 'they cannot tell')] : []),
		...(trace.two
			? [spoken('Two things', trace.two.map(code => short(said.causes[code]?.say ?? code, 4)).join(' and '))]
			: []),
		...(trace.none ? [spoken('Perhaps', 'none of the causes known')] : []),
		...(first ? [spoken(words[trace.word], cause(first), time(first.at))] : []),
		...because('Why', first?.for ?? []),
		...because('Against it', first?.against ?? []),
		...others.slice(0, 2).map(one => spoken('Then', cause(one), time(one.at))),
		spoken('Began', `${time(trace.bracket.from)} to ${until}`),
		spoken('Exposed', many(trace.faces.length, 'face'), `${likely} likely`),
		...(trace.open.length > 0 ? [spoken('Not judged yet', many(trace.open.length, 'coat'))] : []),
		...(next
			? [next.face === null ? spoken('Do first', next.do) : spoken('Look first', shortFace(next.face))]
			: []),
		...(first
			? [spoken('Would have caught it', short(said.causes[first.code]?.check ?? 'no check', 8))]
			: []),
	];
}
