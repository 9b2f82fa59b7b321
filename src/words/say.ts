import { inert } from '../job/inert.ts';

/** Names and short sentences as they are said: topic, place, action. */

/** `left door/edges` as it is said: `left door edges`. */
export const faceName = (id: string): string => inert(id.replace('/', ' '));

/** A part's name, and the number that tells it from its equals; null: it has none. */
export function numberedPart(part: string): { kind: string; number: number | null } {
	const [, kind, number] = /^(.*\S) (\d{1,4})$/u.exec(part) ?? [];
	return kind === undefined ? { kind: part, number: null } : { kind, number: Number(number) };
}

/** Numbers in the order given, those that follow each other as one: `1, 2, 5 to 8`. */
function runsOf(numbers: readonly number[]): string {
	const runs: number[][] = [];
	for (const one of numbers) {
		const run = runs.at(-1);
		if (run && one === (run.at(-1) ?? 0) + 1) run.push(one);
		else runs.push([one]);
	}
	return runs.map(run => (run.length > 2 ? `${run[0]} to ${run.at(-1)}` : run.join(', '))).join(', ');
}

/**
 * Faces in their order, each part named once and equal parts together: `left door: edges, outside; right door: edges`,
 * `seat 1 to 8: top`.
 */
export function facesInOrder(ids: readonly string[]): string {
	const rows: { part: string; names: string[] }[] = [];
	for (const id of ids) {
		const [part = '', ...rest] = id.split('/');
		const last = rows.at(-1);
		if (last?.part === part) last.names.push(rest.join('/'));
		else rows.push({ part, names: [rest.join('/')] });
	}
	const alike: { kind: string; numbers: number[]; names: string }[] = [];
	for (const { part, names } of rows) {
		const { kind, number } = numberedPart(part);
		const row = { kind, numbers: number === null ? [] : [number], names: names.join(', ') };
		const last = alike.at(-1);
		if (last && last.kind === kind && last.names === row.names) last.numbers.push(...row.numbers);
		else alike.push(row);
	}
	const named = alike.map(
		({ kind, numbers, names }) => `${[kind, runsOf(numbers)].join(' ').trim()}: ${names}`,
	);
	return inert(named.join('; '));
}

/** Every one of some faces, parts that are alike but for their number together: `frame 1, 2 tubes; seat 1 to 8 top`. */
export function groupedFaces(ids: readonly string[]): string {
	const alike = new Map<string, { kind: string; face: string; numbers: number[] }>();
	for (const id of ids) {
		const [part = '', ...rest] = id.split('/');
		const { kind, number } = numberedPart(part);
		const face = rest.join('/');
		const key = `${kind}/${face}/${number === null}`;
		const group = alike.get(key) ?? { kind, face, numbers: [] };
		alike.set(key, { ...group, numbers: [...group.numbers, ...(number === null ? [] : [number])] });
	}
	const said = [...alike.values()].map(({ kind, face, numbers }) =>
		[kind, runsOf(numbers.sort((a, b) => a - b)), face].filter(text => text !== '').join(' '),
	);
	return inert(said.join('; '));
}

export const sentence = (text: string): string => {
	const trimmed = text.trim();
	return trimmed.charAt(0).toUpperCase() + trimmed.slice(1);
};

/** `coat 2 of 3`; one beyond the plan is `coat 4`. */
export const coatCounted = (coat: number, planned: number | null): string =>
	planned === null || coat > planned ? `coat ${coat}` : `coat ${coat} of ${planned}`;

/** A number as it is read off a scale: whole from 100 on, three digits below. */
export const figure = (value: number): string =>
	String(Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3)));

/** `95 s`, `12 min`, `2 h 05 min`, `3 days`. */
export function duration(seconds: number): string {
	const s = Math.max(0, Math.round(seconds));
	if (s < 100) return `${s} s`;
	const min = Math.round(s / 60);
	if (min < 120) return `${min} min`;
	const h = Math.floor(min / 60);
	if (h < 48) return `${h} h ${String(min % 60).padStart(2, '0')} min`;
	return `${Math.round(h / 24)} days`;
}

export const prepWord: Record<string, string> = {
	sand: 'sanded',
	scuff: 'scuffed',
	fill: 'filled',
	wipe: 'wiped',
	tack: 'tacked',
	mask: 'masked',
	unmask: 'unmasked',
	'turn over': 'turned over',
	inspect: 'inspected',
};
