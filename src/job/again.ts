import { isMap, visit } from 'yaml';
import { readDocument } from './document.ts';
import type { SheetError } from './errors.ts';
import type { Placed } from './fields.ts';
import { readSheet } from './sheet.ts';

/** What of a sheet may be another the next time: its name, how many of each part there are, what is sprayed. */
export type Changeable = {
	name: string;
	/** `count` null: there is one, and no count is written. */
	parts: { name: string; count: number | null }[];
	/** Every material sprayed, each once, in the order of the stages. */
	materials: string[];
	/** Materials that the sheet has itself. */
	own: string[];
	/** The folder of its shelf, as it is written; undefined: the shop's. */
	shelf: string | undefined;
};

/** By the names of the sheet; what is not named stays. */
export type Changes = {
	name: string;
	counts: ReadonlyMap<string, number>;
	materials: ReadonlyMap<string, string>;
};

type Edit = { from: number; to: number; text: string };

/** A text as YAML has it, in a list or by itself. */
export const word = (text: string): string =>
	/^[\p{L}\p{N}](?:[\p{L}\p{N} ./%°µ+-]*[\p{L}\p{N}./%])?$/u.test(text) ? text : JSON.stringify(text);

function read(text: string, file: string) {
	const source = readDocument(text, file);
	const sheet = source.root && readSheet(source, source.root, '', 0);
	return { source, sheet };
}

/** What may change in a sheet, or what keeps it from being read. */
export function changeable(text: string, file: string): Changeable | SheetError[] {
	const { source, sheet } = read(text, file);
	const { name, parts, stages, materials = [], shelf } = sheet?.values ?? {};
	if (source.errors.length > 0 || name === undefined || !parts || !stages) return source.errors;
	const sprayed = stages.flatMap(({ entry }) => entry?.values.spray?.value ?? []);
	return {
		name,
		parts: parts.flatMap(({ values: { part, count = null } }) => (part ? [{ name: part.value, count }] : [])),
		materials: [...new Set(sprayed)],
		own: materials.map(({ id }) => id),
		shelf: shelf?.value,
	};
}

/** The ends of scalars, and the blocks that begin in the flow of a line, by where they begin. */
function placesIn(root: ReturnType<typeof readDocument>['root']) {
	const ends = new Map<number, number>();
	const flows = new Set<number>();
	visit(root, {
		Scalar: (_, { range }) => void (range && ends.set(range[0], range[1])),
		Map: (_, node) => void (isMap(node) && node.flow && node.range && flows.add(node.range[0])),
	});
	return { ends, flows };
}

/**
 * The sheet with its changes: everything else, and every comment, stays as it is written.
 * @param text a sheet that `changeable` takes
 */
export function changed(text: string, { name, counts, materials }: Changes): string {
	const { source, sheet } = read(text, '');
	if (!sheet) return text;
	const { ends, flows } = placesIn(source.root);
	const instead = (at: number, text: string): Edit => ({ from: at, to: ends.get(at) ?? at, text });
	const renamed = ({ value, at }: Placed<string>): Edit[] => {
		const other = materials.get(value);
		return other === undefined ? [] : [instead(at, word(other))];
	};
	const edits: Edit[] = [
		instead(sheet.place('name'), word(name)),
		...(sheet.values.stages ?? []).flatMap(({ entry }) =>
			entry?.values.spray ? renamed(entry.values.spray) : [],
		),
	];
	for (const entry of sheet.values.parts ?? []) {
		const { part } = entry.values;
		const count = counts.get(part?.value ?? '');
		if (!part || count === undefined) continue;
		if (entry.has('count')) edits.push(instead(entry.place('count'), String(count)));
		else if (count > 1) {
			const end = ends.get(part.at) ?? part.at;
			const indent = ' '.repeat(entry.at - text.lastIndexOf('\n', entry.at - 1) - 1);
			const next = text.indexOf('\n', end);
			const [at, added] = flows.has(entry.at) ? [end, ', '] : [next < 0 ? text.length : next, `\n${indent}`];
			edits.push({ from: at, to: at, text: `${added}count: ${count}` });
		}
	}
	return edits
		.toSorted((one, other) => other.from - one.from)
		.reduce((sheet, { from, to, text }) => sheet.slice(0, from) + text + sheet.slice(to), text);
}
