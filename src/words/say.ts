import { inert } from '../job/inert.ts';

/** Names and short sentences as they are said: topic, place, action. */

/** `left door/edges` as it is said: `left door edges`. */
export const faceName = (id: string): string => inert(id.replace('/', ' '));

/** Faces in their order, each part named once: `left door: edges, outside; right door: edges`. */
export function facesInOrder(ids: readonly string[]): string {
	const parts: { part: string; names: string[] }[] = [];
	for (const id of ids) {
		const [part = '', ...rest] = id.split('/');
		const last = parts.at(-1);
		if (last?.part === part) last.names.push(rest.join('/'));
		else parts.push({ part, names: [rest.join('/')] });
	}
	return inert(parts.map(({ part, names }) => `${part}: ${names.join(', ')}`).join('; '));
}

/** `1, 2, 5 to 8`. */
function runsOf(numbers: readonly number[]): string {
	const runs: number[][] = [];
	for (const one of [...numbers].sort((a, b) => a - b)) {
		const run = runs.at(-1);
		if (run && one === (run.at(-1) ?? 0) + 1) run.push(one);
		else runs.push([one]);
	}
	return runs.map(run => (run.length > 2 ? `${run[0]} to ${run.at(-1)}` : run.join(', '))).join(', ');
}

/** Every one of some faces, parts that are alike but for their number together: `frame 1, 2 tubes; seat 1 to 8 top`. */
export function groupedFaces(ids: readonly string[]): string {
	const alike = new Map<string, { stem: string; face: string; numbers: number[] }>();
	for (const id of ids) {
		const [part = '', ...rest] = id.split('/');
		const [, stem = part, number] = /^(.*\S) (\d{1,4})$/.exec(part) ?? [];
		const face = rest.join('/');
		const key = `${stem}/${face}/${number === undefined}`;
		const group = alike.get(key) ?? { stem, face, numbers: [] };
		alike.set(key, {
			...group,
			numbers: [...group.numbers, ...(number === undefined ? [] : [Number(number)])],
		});
	}
	const said = [...alike.values()].map(({ stem, face, numbers }) =>
		[stem, runsOf(numbers), face].filter(text => text !== '').join(' '),
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
