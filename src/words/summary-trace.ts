import { clockOn, clocksOver } from './clock.ts';
import { short, shortFace, spoken } from './spoken.ts';

type Spot = { face: string; coat: number };
/** What the sentences need of a trace. */
export type Traced = {
	bracket: { from: string; to: string };
	exposed: readonly Spot[];
	likely: readonly Spot[];
	open: readonly Spot[];
	inspect: readonly Spot[];
	candidates: readonly { code: string; at: string; reasons: readonly string[] }[];
	missing: readonly string[];
	told: boolean;
};
type Said = {
	fault: string;
	face: string;
	coat: number;
	zone: string;
	causes: Record<string, { say: string; check: string }>;
};

const many = (count: number): string => `${count} ${count === 1 ? 'coat' : 'coats'}`;
const place = ({ face, coat }: Spot): string => `${shortFace(face)}, coat ${coat}`;

/** How the instants of a trace are said: with their dates where they do not all fall on one day. */
export function timesOf({ bracket, candidates }: Pick<Traced, 'bracket' | 'candidates'>, zone: string) {
	const instants = [bracket.from, bracket.to, ...candidates.map(({ at }) => at)];
	const said = clocksOver(instants.map(Date.parse), zone);
	return (at: string): string => said(Date.parse(at));
}

/**
 * A trace in spoken sentences, at most 12 words each: what was asked, what is likeliest and why, who else, where to
 * look first, what is not known.
 * @param said fault in words, the face asked about, the time zone of the day and the causes in words
 */
export function traceSentences(trace: Traced, said: Said): string[] {
	const cause = (code: string) => short(said.causes[code]?.say ?? code, 7);
	const [first, ...others] = trace.candidates;
	const next = trace.inspect[0];
	const time = timesOf(trace, said.zone);
	const until = clockOn(Date.parse(trace.bracket.to), Date.parse(trace.bracket.from), said.zone);
	return [
		spoken(short(said.fault, 4), place(said)),
		...(trace.told ? [] : [spoken('Records', 'they cannot tell')]),
		...(first ? [spoken(trace.told ? 'Likeliest' : 'Perhaps', cause(first.code), time(first.at))] : []),
		...(first?.reasons.slice(0, 1).map(reason => spoken('Why', short(reason, 10))) ?? []),
		...others.slice(0, 2).map(({ code, at }) => spoken('Then', cause(code), time(at))),
		spoken('In doubt', `${time(trace.bracket.from)} to ${until}`),
		spoken('Exposed', `${many(trace.exposed.length)}`, `${trace.likely.length} by the likeliest cause`),
		...(trace.open.length > 0 ? [spoken('Not judged yet', many(trace.open.length))] : []),
		...(next ? [spoken('Look first', place(next))] : []),
		...(first
			? [spoken('Would have caught it', short(said.causes[first.code]?.check ?? 'no check', 8))]
			: []),
	];
}
