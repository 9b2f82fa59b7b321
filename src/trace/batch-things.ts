import type { Component, Material } from '../job/job.ts';
import { lifeClock, livesAt_h, standingClock } from '../job/process-clocks.ts';
import { isTimed } from '../records/cup-timed.ts';
import { pourOrder } from '../trade/mix.ts';
import { figure } from '../words/say.ts';
import { lasts_ms } from './read-since.ts';
import { type Asked, type Clue, materialOf, type Suspicion } from './suspicion.ts';
import type { BatchStory, Pass, Timeline } from './timeline.ts';

type Finding = { clues: Omit<Clue, 'explains'>[]; closed: boolean; unread: string | null; from?: number };

const measured = (at: number, size: number, reason: string): Omit<Clue, 'explains'> => ({
	kind: 'measured',
	at,
	size,
	reason,
});

/** By how much a level rose that was poured, mL or g. */
function risen(story: BatchStory, at: number): number {
	const [last, pour] = [story.pours[at - 1]?.record, story.pours[at]?.record];
	const before = last?.level_mL ?? last?.mass_g ?? 0;
	return Math.max(0, (pour?.level_mL ?? pour?.mass_g ?? before) - before);
}

/** What went in of a component ÷ what should have: from the levels before its pours and the level last wanted. */
function pouredShare(story: BatchStory, component: Component): number | null {
	const at = story.pours.findLastIndex(({ record }) => record.component === component);
	const pour = story.pours[at]?.record;
	if (!pour) return null;
	const last = story.pours[at - 1]?.record;
	const level = pour.level_mL ?? pour.mass_g;
	const wanted = pour.type === 'batch.poured' ? (pour.wanted_mL ?? pour.wanted_g) : undefined;
	const before = last?.level_mL ?? last?.mass_g ?? 0;
	if (level === undefined || wanted === undefined || wanted <= before)
		return pour.found === 'right' ? 1 : pour.found === 'short' ? 0.7 : 1.5;
	const earlier = story.pours.slice(0, at).reduce((sum, { record }, nth) => {
		return record.component === component ? sum + risen(story, nth) : sum;
	}, 0);
	return (earlier + level - before) / (earlier + wanted - before);
}

/** What a pour read as right may be off by, as a share of its part, before it is doubted: more than half a mark is. */
const readAsRight = 0.05;

/** All that went in of a component, mL or g. */
const allOf = (story: BatchStory, component: Component): number =>
	story.pours.reduce(
		(sum, { record }, nth) => (record.component === component ? sum + risen(story, nth) : sum),
		0,
	);

/** Whether a pour that was off was made good: more of what was in before went in after it, and the ratio is right in the end. */
function isMadeGood(story: BatchStory, component: Component): boolean {
	const at = story.pours.findLastIndex(({ record }) => record.component === component);
	const before = new Set(story.pours.slice(0, at).map(({ record }) => record.component));
	const topped = story.pours.slice(at + 1).some(({ record }) => before.has(record.component));
	if (!topped || story.found.some(({ record }) => record.found === 'unknown')) return false;
	const parts = story.started.ratio;
	return pourOrder.every(other => {
		const wanted = (allOf(story, component) * (parts[other] ?? 0)) / (parts[component] ?? Number.NaN);
		return Math.abs(allOf(story, other) - wanted) <= readAsRight * wanted;
	});
}

function ratio(story: BatchStory): Finding {
	const clues: Finding['clues'] = [];
	for (const component of pourOrder.filter(one => one !== 'base')) {
		const share = pouredShare(story, component);
		const pour = story.pours.findLast(({ record }) => record.component === component);
		if (share === null || !pour) continue;
		if (component === 'hardener' && share < 0.25) continue;
		const isRight = pour.record.found === 'right';
		if (isRight && Math.abs(share - 1) <= readAsRight) continue;
		if (isMadeGood(story, component)) continue;
		const reason = isRight
			? `${component} was read as right, at ${Math.round(share * 100)}% of its part`
			: `${component} was ${pour.record.found}`;
		clues.push(measured(pour.at, 2 * Math.abs(share - 1), reason));
	}
	for (const found of story.found)
		if (
			found.record.found === 'unknown' ||
			(found.record.found === 'over' && !isMadeGood(story, found.record.component))
		)
			clues.push(measured(found.at, 0.5, 'the level after a break in mixing was not known'));
	for (const at of story.breaks) clues.push({ kind: 'break', at, size: 0, reason: 'a break in mixing' });
	return { clues, closed: clues.length === 0, unread: null };
}

function hardener(story: BatchStory, timeline: Timeline): Finding {
	const parts = story.started.ratio.hardener;
	const share = pouredShare(story, 'hardener');
	const at = Date.parse(story.started.at);
	if (parts === 0) return { clues: [], closed: true, unread: null };
	if (share === null)
		return {
			clues: [measured(at, 1, `no hardener was read into batch ${story.letter}`)],
			closed: false,
			unread: `hardener: no level was read in batch ${story.letter}`,
		};
	const pour = story.pours.findLast(({ record }) => record.component === 'hardener');
	if (share < 0.25)
		return {
			clues: [measured(pour?.at ?? at, 1, 'next to no hardener went in')],
			closed: false,
			unread: null,
		};
	const unknown = story.found.some(({ record }) => record.found === 'unknown');
	const clues: Finding['clues'] = unknown
		? [{ kind: 'break', at, size: 0, reason: 'a break in mixing, and the level not known' }]
		: [];
	return { clues, closed: !unknown || timeline.passes.length === 0, unread: null };
}

function can(story: BatchStory, timeline: Timeline): Finding {
	const clues: Finding['clues'] = [];
	const poured = story.pours.filter(({ record }) => record.type === 'batch.poured');
	for (const { at, record } of story.pours) {
		if (record.type !== 'batch.poured') continue;
		const marks = timeline.cans.get(`${story.material}/${record.component}`);
		if (marks?.includes(record.can) === false)
			clues.push(measured(at, 1, `${record.component} came from the can marked ${record.can}`));
	}
	const last = new Map(story.cans.map(reading => [String(reading.record.wanted), reading]));
	for (const { at, record } of last.values())
		if (!record.matched)
			clues.push(measured(at, 1, `can mark ${record.value} was read, ${record.wanted} wanted`));
	const read = poured.length > 0 && story.cans.length >= poured.length;
	return {
		clues,
		closed: false,
		unread: read
			? `can: batch ${story.letter} rests on the marks alone, nothing else told the cans apart`
			: `can: no mark was read for every pour of batch ${story.letter}`,
	};
}

function stood(story: BatchStory, timeline: Timeline): Finding {
	const material = timeline.job.materials[story.material];
	if (!material || material.standing_min === 0) return { clues: [], closed: true, unread: null };
	const poured = story.pours.filter(({ at }) => story.stood === null || at <= story.stood).at(-1);
	const from = poured?.at ?? Date.parse(story.started.at);
	const unread = `standing: batch ${story.letter} has no record that it stood`;
	if (story.stood === null) return { clues: [measured(from, 1, 'it was not stood')], closed: false, unread };
	const least = (story.stood - from) / 60_000;
	const wanted = standing_min(material, story, timeline, from, story.stood);
	if (least >= wanted * 0.95) return { clues: [], closed: true, unread: null };
	const reason = `it stood ${Math.round(least)} of ${wanted} min`;
	return { clues: [measured(story.stood, 1 - least / wanted, reason)], closed: false, unread: null };
}

/** How long it was to stand, min: by what had been read until it was used, where the sheet lists points. */
function standing_min(
	material: Material,
	story: BatchStory,
	timeline: Timeline,
	from: number,
	until: number,
): number {
	const clock = standingClock(material);
	if (!clock) return material.standing_min;
	const read_C = timedBy(story, until)?.record.tempC ?? null;
	const span = { from, until, of: 'airC', standing: { read_C } } as const;
	return lasts_ms(timeline, timeline.days[story.day], clock, span) / 60_000;
}

/** The last time that its flow cup was timed until some moment. */
const timedBy = (story: BatchStory, until: number) =>
	story.timed.filter(({ at, record }) => at <= until && isTimed(record)).at(-1);

function viscosity(story: BatchStory, timeline: Timeline): Finding {
	const range = timeline.job.materials[story.material]?.cup?.seconds;
	const last = story.timed.filter(({ record }) => isTimed(record)).at(-1);
	if (!last)
		return {
			clues: [{ kind: 'open', at: Date.parse(story.started.at), size: 0, reason: 'the cup was not timed' }],
			closed: false,
			unread: `viscosity: the seconds of batch ${story.letter} were not read`,
		};
	if (last.record.fits) return { clues: [], closed: true, unread: null };
	const { seconds } = last.record;
	const [low, high] = range ?? [seconds, seconds];
	if (seconds >= low && seconds <= high) {
		const reason = `its paint was ${figure(last.record.tempC)} °C as the cup was timed`;
		return { clues: [measured(last.at, 0.5, reason)], closed: false, unread: null };
	}
	const size = seconds < low ? (low - seconds) / low : (seconds - high) / high;
	return {
		clues: [measured(last.at, 2 * size, `the cup ran ${figure(seconds)} s`)],
		closed: false,
		unread: null,
	};
}

/** The earliest that the hardener can have gone in: its can in the hand, no level read since; null: it never did. */
function hardenedAt({ material, cans, pours, found }: BatchStory, timeline: Timeline): number | null {
	const level = pours.find(({ record }) => record.component === 'hardener');
	if (!level) return null;
	const since = Math.max(0, ...[...pours, ...found].map(({ seq }) => seq).filter(seq => seq < level.seq));
	const marks = timeline.cans.get(`${material}/hardener`) ?? [];
	const inHand = cans.find(
		({ seq, record }) =>
			seq > since && seq < level.seq && record.matched && marks.includes(String(record.value)),
	);
	return (inHand ?? level).at;
}

function lifeEnds(story: BatchStory, timeline: Timeline, until: number): number {
	const from = hardenedAt(story, timeline) ?? Date.parse(story.started.at);
	const material = timeline.job.materials[story.material];
	if (!material) return Number.POSITIVE_INFINITY;
	const clock = lifeClock(material);
	const day = timeline.days[story.day];
	if (clock) {
		const pot = { make_mL: story.started.make_mL, read_C: timedBy(story, until)?.record.tempC ?? null };
		return from + lasts_ms(timeline, day, clock, { from, until, of: 'airC', pot });
	}
	const warmest = Math.max(...(day?.air ?? []).map(({ record }) => record.airC), material.potLife.at_C);
	const temp_C = Math.min(warmest, material.potLife.at_C + 20);
	return from + livesAt_h(material, temp_C) * 3600_000;
}

function age(story: BatchStory, timeline: Timeline, pass: Pass): Finding {
	const end = lifeEnds(story, timeline, pass.ended);
	if (pass.ended <= end) return { clues: [], closed: true, unread: null };
	const mixed = story.pours[0]?.at ?? Date.parse(story.started.at);
	const over = (pass.ended - end) / (end - mixed);
	const reason = `batch ${story.letter} was ${Math.round((pass.ended - end) / 60_000)} min past its pot life`;
	return { clues: [measured(end, 3 * over, reason)], closed: false, unread: null, from: end };
}

const looks: Record<string, (story: BatchStory, timeline: Timeline, pass: Pass) => Finding> = {
	'no-hardener': hardener,
	'wrong-can': can,
	'wrong-ratio': ratio,
	'not-stood': stood,
	'viscosity-off': viscosity,
	'batch-too-old': age,
};

export const batchCodes = Object.keys(looks);

/** What one thing about the batches in the cup may have had to do with a pass; faces on other days are exposed too. */
export function batchSuspicions({ timeline, pass }: Asked, code: string): Suspicion[] {
	const look = looks[code];
	if (!look || !materialOf(timeline, pass)) return [];
	const found: Suspicion[] = [];
	for (const letter of pass.start.cup) {
		const story = timeline.batches.get(letter);
		if (!story) continue;
		const finding = look(story, timeline, pass);
		if (finding.closed) continue;
		const from = finding.from ?? Date.parse(story.started.at);
		const exposed = (timeline.cups.get(letter) ?? []).filter(one => one.ended > from);
		const explains = (one: Pass) => one.start.cup.includes(letter) && one.ended > from;
		const clues = finding.clues.map(clue => ({ ...clue, explains }));
		if (clues.length === 0)
			clues.push({ kind: 'open', at: from, size: 0, reason: 'nothing was logged', explains });
		const to = Math.max(...exposed.map(one => one.ended));
		found.push({
			code,
			thing: `batch ${letter}`,
			from,
			to,
			exposed,
			clues,
			unread: finding.unread,
			stays: true,
		});
	}
	return found;
}
