/** Parts that must be sprayed together because faces of each wait for faces of the other; mostly one part each. */
export type Group = { parts: string[]; before: number[] };

/**
 * Ties parts together and says which groups go before which.
 * @param parts in the order of the sheet
 * @param edges pairs `[before, after]` of parts, one for each face that waits for a face of another part
 */
export function groupParts(parts: readonly string[], edges: readonly (readonly [string, string])[]): Group[] {
	const next = new Map<string, Set<string>>(parts.map(part => [part, new Set()]));
	for (const [before, after] of edges) if (before !== after) next.get(before)?.add(after);
	const reach = new Map(parts.map(part => [part, reached(next, part)]));
	const tied = (one: string, other: string) =>
		one === other || Boolean(reach.get(one)?.has(other) && reach.get(other)?.has(one));
	const groups: Group[] = [];
	for (const part of parts)
		if (!groups.some(group => group.parts.includes(part)))
			groups.push({ parts: parts.filter(other => tied(part, other)), before: [] });
	for (const [at, group] of groups.entries())
		group.before = [...groups.keys()].filter(
			other =>
				other !== at &&
				groups[other]?.parts.some(part => group.parts.some(mine => reach.get(part)?.has(mine))),
		);
	return groups;
}

function reached(next: ReadonlyMap<string, ReadonlySet<string>>, from: string): Set<string> {
	const seen = new Set<string>();
	const open = [from];
	for (let part = open.pop(); part !== undefined; part = open.pop())
		for (const other of next.get(part) ?? [])
			if (!seen.has(other)) {
				seen.add(other);
				open.push(other);
			}
	return seen;
}
