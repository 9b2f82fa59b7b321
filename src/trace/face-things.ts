import type { Material } from '../job/job.ts';
import { wanted_um } from '../job/on-work.ts';
import { flashClocks } from '../job/process-clocks.ts';
import { coatKey } from '../records/passes.ts';
import { plannedPull_s } from '../trade/pulls.ts';
import { figure } from '../words/say.ts';
import { lasts_ms } from './read-since.ts';
import {
	type Asked,
	type Clue,
	dayOf,
	faceOf,
	materialOf,
	overlaps,
	planOf,
	type Suspicion,
} from './suspicion.ts';
import type { Pass, Timeline } from './timeline.ts';

/**
 * Things that each face brings its own evidence of: its wait, its window, its pulls. `good`: a reading or a number
 * of its own says it was right; `size` above 0: beyond the limit; neither: not known. `spared`: its pulls speak for
 * the opposite, so that what is suspected of another is not suspected of it.
 */
export type Own = {
	good: boolean;
	size: number;
	says: string;
	counts: boolean;
	read?: true;
	pulled?: true;
	spared?: true;
};

const unknown: Own = { good: false, size: 0, says: 'nothing was logged', counts: true };
const aside: Own = { good: false, size: 0, says: '', counts: false };

const same = (a: Pass, b: Pass) => a.face === b.face && a.coat === b.coat;

/** The pass that ended the coat under a pass, in the files given. */
export function under(timeline: Timeline, pass: Pass): Pass | undefined {
	return timeline.faces.get(pass.face)?.findLast(one => one.coat < pass.coat && one.ended <= pass.began);
}

function overridden(timeline: Timeline, pass: Pass, rule: string): boolean {
	return pass.start.overrides.includes(rule) || passedOver(timeline, pass, rule);
}

function passedOver(timeline: Timeline, pass: Pass, rule: string): boolean {
	return dayOf(timeline, pass).changes.some(
		({ record }) =>
			record.type === 'override.given' &&
			record.rule === rule &&
			record.face === pass.face &&
			record.coat === pass.coat,
	);
}

const touched = (timeline: Timeline, pass: Pass, since: number) =>
	timeline.touches.get(pass.face)?.findLast(({ at }) => at >= since && at <= pass.began)?.record;

function flash(timeline: Timeline, pass: Pass): Own {
	const before = under(timeline, pass);
	if (!before || pass.start.from === 'part') return aside;
	const material = materialOf(timeline, pass);
	const wet = planOf(timeline, before)?.material === planOf(timeline, pass)?.material;
	const touch = touched(timeline, pass, before.ended);
	if (touch && !touch.matched)
		return { good: false, size: 1, says: `the touch test read ${touch.value}`, counts: true };
	if (!material || !wet || before.day !== pass.day)
		return pass.start.window === 'wait'
			? { good: false, size: 1, says: 'its window was not open yet', counts: true }
			: { ...unknown, good: pass.start.window !== 'spray' || touch !== undefined };
	const least = leastFlash_min(material, timeline, pass, before);
	const gap = (pass.began - before.ended) / 60_000;
	const short = gap < least * 0.99;
	if (short && !pass.estimated && !before.estimated)
		return {
			good: false,
			size: 2 * (1 - gap / least),
			says: `it waited ${Math.round(gap)} of ${Math.round(least)} min`,
			counts: true,
		};
	if (pass.start.window === 'wait')
		return { good: false, size: 0.3, says: 'its window was not open yet', counts: true };
	return { ...unknown, good: touch !== undefined && !short };
}

function leastFlash_min(material: Material, timeline: Timeline, pass: Pass, before: Pass) {
	const least = flashClocks(material, planOf(timeline, before)?.kind ?? 'full')?.least;
	if (!least) return material.flash.min_min;
	const span = { from: before.ended, until: pass.began, of: 'surfaceC' } as const;
	return lasts_ms(timeline, dayOf(timeline, pass), least, span) / 60_000;
}

/** Most minutes between two coats, from the end of the one below; undefined: the sheet sets none. */
function mostFlash_min(timeline: Timeline, pass: Pass, before: Pass): number | undefined {
	const material = materialOf(timeline, pass);
	const clocks = material && flashClocks(material, planOf(timeline, before)?.kind ?? 'full');
	if (!clocks) return material?.flash.max_min ?? undefined;
	if (!clocks.most) return undefined;
	const span = { from: before.began, until: pass.began, of: 'surfaceC' } as const;
	const most_ms = lasts_ms(timeline, dayOf(timeline, pass), clocks.most, span);
	return (most_ms - (before.ended - before.began)) / 60_000;
}

function window(timeline: Timeline, pass: Pass): Own {
	const before = under(timeline, pass);
	if (!before || pass.start.from === 'part') return aside;
	const max = mostFlash_min(timeline, pass, before);
	const gap = (pass.began - before.ended) / 60_000;
	const shut = pass.start.window === 'sand' || pass.start.window === 'scuff';
	const over = max && before.day === pass.day && !pass.estimated ? gap / max - 1 : 0;
	if (!shut && over <= 0) return { ...unknown, good: true };
	const ticked = timeline.stages
		.get(pass.face)
		?.some(
			({ at, record }) =>
				(record.stage === 'sand' || record.stage === 'scuff') && at >= before.ended && at <= pass.began,
		);
	if (ticked && !overridden(timeline, pass, 'window'))
		return { ...unknown, says: 'sanding was ticked, not read' };
	const late = Math.round(gap / 60);
	return {
		good: false,
		size: Math.max(1, over),
		says: `${late} h after the coat under it, not sanded`,
		counts: true,
	};
}

/**
 * Seconds that the trigger was pulled over a whole face, and those planned; null where no trigger line says it. The
 * time between two keys is walking, turns and talk as well, and the share of a stretch is nobody's own.
 */
function pullsOf(timeline: Timeline, pass: Pass): { pulled_s: number; planned_s: number } | null {
	const { pulled_s, estimated, extent, start } = pass;
	if (pulled_s === null || estimated || extent !== 'all') return null;
	const coat = planOf(timeline, pass);
	if (!coat) return null;
	const usual = dayOf(timeline, pass).rates?.[coat.material]?.time;
	return { pulled_s, planned_s: plannedPull_s(start.spray_s, coat, usual) };
}

/** Film, as read or as the pulls of a trigger line have it. Heavy is above 1, light below. */
function film(timeline: Timeline, pass: Pass, heavy: boolean): Own {
	if (pass.extent === 'none') return aside;
	const read = timeline.films.get(coatKey(pass))?.at(-1);
	const wanted = read ? filmWanted(timeline, pass, read.record.dry_um !== undefined) : null;
	const value = read?.record.wet_um ?? read?.record.dry_um;
	if (wanted && value !== undefined) {
		const share = value / wanted;
		const size = heavy ? share - 1 : 1 / share - 1;
		if (size < 0.25) return { ...unknown, good: true };
		const says = `film read ${figure(value)} µm, ${figure(wanted)} wanted`;
		return { good: false, size, says, counts: true, read: true };
	}
	const pulls = pullsOf(timeline, pass);
	if (!pulls) return unknown;
	const share = Math.max(0.05, pulls.pulled_s / pulls.planned_s);
	const size = heavy ? share - 1 : 1 / share - 1;
	const opposite = heavy ? 1 / share - 1 : share - 1;
	if (opposite >= 0.25) return { ...unknown, spared: true };
	if (size < 0.25) return unknown;
	const says = `the trigger was pulled ${Math.round(pulls.pulled_s)} s for ${Math.round(pulls.planned_s)} s`;
	return { good: false, size, says, counts: true, pulled: true };
}

function filmWanted(timeline: Timeline, pass: Pass, dry: boolean): number | null {
	const plan = planOf(timeline, pass);
	const material = materialOf(timeline, pass);
	const coat = plan && material?.coats[plan.kind];
	if (!material || !coat) return null;
	if (dry) return dryUnder(timeline, pass) + coat.dry_um;
	return wanted_um(material, plan.kind);
}

/** Dry film that the coats under a pass should have built, µm: a dry gauge reads them all. */
function dryUnder(timeline: Timeline, pass: Pass): number {
	const coats = faceOf(timeline, pass.face)?.coats.slice(0, pass.coat - 1) ?? [];
	return coats.reduce(
		(sum, plan) => sum + (timeline.job.materials[plan.material]?.coats[plan.kind]?.dry_um ?? 0),
		0,
	);
}

const owns: Record<string, (timeline: Timeline, pass: Pass) => Own> = {
	'coat-too-early': flash,
	'window-missed': window,
	'film-too-heavy': (timeline, pass) => film(timeline, pass, true),
	'film-too-light': (timeline, pass) => film(timeline, pass, false),
};

const things: Record<string, string> = {
	'coat-too-early': 'flash',
	'window-missed': 'recoat window',
	'film-too-heavy': 'film',
	'film-too-light': 'film',
};

const asks: Record<string, string> = {
	flash: 'no touch test spoke for',
	'recoat window': 'only a tick stands for the sanding of',
	film: 'no film reading on',
};

/** From the last pass of the day that was right by its own evidence to the first one after that was. */
export function neighbours(timeline: Timeline, pass: Pass, own: (pass: Pass) => Own) {
	const day = dayOf(timeline, pass);
	const others = day.passes.filter(one => !same(one, pass));
	const before = others.findLast(one => one.ended <= pass.began && own(one).good);
	const after = others.find(one => one.began >= pass.ended && own(one).good);
	return { from: before?.ended ?? day.opened, to: after?.began ?? day.closed };
}

/** What the wait, the window or the film of a face may have had to do with a pass; null where it is cleared. */
export function ownSuspicion({ timeline, pass }: Asked, code: string): Suspicion | null {
	const look = owns[code];
	if (!look) return null;
	const own = (one: Pass) => look(timeline, one);
	const mine = own(pass);
	if (mine.good || !mine.counts) return null;
	const { from, to } = neighbours(timeline, pass, own);
	const isExposed = (one: Pass) => {
		const { counts, good, spared } = own(one);
		return counts && !good && (!spared || same(one, pass));
	};
	const exposed = dayOf(timeline, pass).passes.filter(one => overlaps(one, from, to) && isExposed(one));
	const kind = mine.size > 0 ? 'measured' : 'open';
	const explains: Clue['explains'] = one =>
		one.day === pass.day && overlaps(one, from, to) && (mine.size > 0 ? own(one).size > 0 : isExposed(one));
	const thing = things[code] ?? code;
	const beside = exposed
		.filter(one => !same(one, pass) && own(one).read)
		.map(
			(one): Clue => ({
				kind: 'measured',
				at: one.began,
				size: own(one).size,
				reason: `${one.face}: ${own(one).says}`,
				explains: other => other.day === pass.day && overlaps(other, from, to),
			}),
		);
	return {
		code,
		thing,
		from,
		to,
		exposed,
		clues: [
			{
				kind,
				at: pass.began,
				size: mine.size,
				reason: mine.says,
				explains,
				...(mine.pulled && { pulled: true as const }),
			},
			...beside,
		],
		unread: mine.size > 0 ? null : `${thing}: ${asks[thing]} ${pass.face}`,
		stays: false,
	};
}
