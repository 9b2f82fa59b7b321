import { type Day, materialOf, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type NoteOf } from './notes.ts';
import { lifeUsed } from './pot-life.ts';
import { hardenerFault, standingFault, stirringFault } from './pots.ts';

type Start = NoteOf<'face.started'>;

/** Letters of the batches that the records put in the cup before note `n`. */
export function cupAt(day: Day, n: number): string[] {
	const since = day.notes.slice(0, n).findLastIndex(note => is(note, 'cup.emptied'));
	return [...new Set(allOf(day.notes.slice(since + 1, n), 'batch.loaded').map(({ batch }) => batch))];
}

function readiness(day: Day, batch: string, start: Start): string[] {
	const before = day.notes.slice(0, start.n);
	const ready = allOf(before, 'batch.ready').find(note => note.batch === batch);
	const loaded = allOf(before, 'batch.loaded').find(note => note.batch === batch);
	return [
		...(ready && (!loaded || ready.n < loaded.n) ? [] : ['it was not ready when it was loaded']),
		...(allOf(before, 'batch.discarded').some(note => note.batch === batch) ? ['it was discarded'] : []),
	];
}

function batchFaults(day: Day, batch: string, start: Start): string[] {
	const material = materialOf(day, batch);
	if (!material) return ['it was never begun'];
	const planned = plannedCoat(day, start.face, start.coat)?.material ?? material.id;
	const ready =
		allOf(day.notes.slice(0, start.n), 'batch.ready').find(note => note.batch === batch)?.n ?? start.n;
	const used = lifeUsed(day, material, batch, start);
	return [
		hardenerFault(day, material, batch, ready),
		standingFault(day, material, batch, ready),
		stirringFault(day, material, batch, ready),
		used > 1.001 ? `it has used ${Math.round(used * 100)} % of its pot life` : null,
		planned === material.id ? null : `it is ${material.id}, the coat wants ${planned}`,
		...readiness(day, batch, start),
	].flatMap(says => says ?? []);
}

/** Every batch in the cup has its hardener, stood, is ready and alive when a face starts (property 13). */
export function cupSound(day: Day): Finding[] {
	return allOf(day.notes, 'face.started').flatMap(start => {
		const cup = new Set([...start.cup, ...cupAt(day, start.n)]);
		const empty = cup.size === 0 ? [finding(13, start, `${start.face} starts from an empty cup`)] : [];
		const faults = [...cup].flatMap(batch => batchFaults(day, batch, start).map(says => ({ batch, says })));
		return [
			...empty,
			...faults.map(({ batch, says }) =>
				finding(13, start, `${start.face} starts from batch ${batch}: ${says}`),
			),
		];
	});
}
