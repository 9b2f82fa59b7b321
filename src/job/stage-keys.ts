import { isScalar } from 'yaml';
import * as z from 'zod/mini';
import {
	type Entry,
	list,
	map,
	may,
	offsetOf,
	type Placed,
	pairsOf,
	placed,
	type Reader,
	value,
	wholeList,
} from './fields.ts';
import { brief } from './inert.ts';
import { type CoatKind, coatKindSchema, prepSchema } from './job.ts';
import { likeliest } from './other-words.ts';
import { type Held, heldRead } from './shape-words.ts';
import { complain, fromText, grit, key, name, some, timeOfDay_min } from './values.ts';

/** The keys of a stage, and the words that stand for one. */

/** Work on faces between coats, each a stage of its own. */
export const prepSteps = prepSchema.options;
export const stepKeys = [...prepSteps, 'degrease'] as const;
export type StepKey = (typeof stepKeys)[number];
export const isStepKey = (work: string): work is StepKey => stepKeys.some(step => step === work);

const coatKinds = coatKindSchema.options;
/** `full`, or `2 full`. */
export const coatRun = fromText((text, ctx): CoatKind[] => {
	const [, times = '1', written = text] = /^(\d+)\s+(.*)$/.exec(text) ?? [];
	const kind = coatKindSchema.safeParse(written);
	if (kind.success && Number(times) >= 1 && Number(times) <= 20)
		return Array<CoatKind>(Number(times)).fill(kind.data);
	const like = likeliest(written, coatKinds);
	const near = like === undefined ? '' : `; nearest: ${like}`;
	return complain(ctx, `allowed: ${coatKinds.join(', ')}, or as in "2 full"${near}`);
});
/** Coats one after another: `[tack, full, full]`, or `[tack, 2 full]`. */
const coatsRead: Reader<Placed<CoatKind>[]> = (source, node, what, at) =>
	wholeList(placed(value(coatRun)), 1)(source, node, what, at)?.flatMap(({ value: kinds, at: where }) =>
		kinds.map(kind => ({ value: kind, at: where })),
	);
type CoatsFor = { name: string; at: number; coats: Placed<CoatKind>[] };
/** Coats of some faces by their names. */
const coatsByFace: Reader<CoatsFor[]> = (source, node, what, at) =>
	pairsOf(source, node, what, at)?.flatMap(pair => {
		const coats = coatsRead(source, pair.node, `${what}, ${brief(pair.key)}`, pair.at);
		return coats ? [{ name: pair.key, at: pair.at, coats }] : [];
	});

const untilRead = fromText((text, ctx): { until_min: number } => {
	const until_min = timeOfDay_min(text);
	return until_min === undefined ? complain(ctx, 'a time of day is wanted, as in "08:00"') : { until_min };
});
/** How parts are held in a stage, by their names. */
const heldByPart: Reader<{ name: Placed<string>; held: Held }[]> = (source, node, what, at) =>
	pairsOf(source, node, what, at)?.flatMap(pair => {
		const held = value(heldRead)(source, pair.node, `${what}, ${brief(pair.key)}`, pair.at);
		return held ? [{ name: { value: pair.key, at: pair.at }, held }] : [];
	});

/** A time, or over the night: as long as the shop is open, so that the next thing waits for the morning, or for an hour of it. */
const waitRead = fromText((text, ctx): number | 'overnight' | { until_min: number } => {
	if (text === 'overnight') return text;
	const hour = untilRead.safeParse(text.replace(/^until\s+/, ''));
	if (/^until\s/.test(text) && hour.success) return hour.data;
	const read = some('time').safeParse(text);
	if (read.success) return read.data;
	return complain(ctx, `${read.error.issues[0]?.message}, or overnight, or as in "until 08:00"`);
});
const leaveOut = may(list(placed(value(name))));
const yes = z.pipe(
	z.enum(['yes']),
	z.transform(() => null),
);
const done = may(value(yes));
const gritOrYes = fromText((text, ctx): number | null => {
	const read = text === 'yes' ? { success: true as const, data: null } : grit.safeParse(text);
	if (read.success) return read.data;
	return complain(ctx, 'allowed: a grit as in "400 grit", or yes');
});
const abrade = may(value(gritOrYes));
/** `yes`, once the coat is dry to handle, or so long after it. */
const unmaskRead = fromText((text, ctx): { dry?: 'handle'; after_s?: number } => {
	if (text === 'yes') return {};
	if (text === 'dry to handle') return { dry: 'handle' };
	const read = some('time').safeParse(text);
	return read.success
		? { after_s: read.data }
		: complain(ctx, 'allowed: yes, dry to handle, or a time as in "16 h"');
});
const stageShape = {
	name: may(value(name)),
	spray: may(placed(value(key))),
	coats: may(coatsRead),
	gun: may(placed(value(name))),
	'coats for': may(coatsByFace),
	held: may(heldByPart),
	wait: may(value(waitRead)),
	until: may(value(untilRead)),
	sand: abrade,
	scuff: abrade,
	fill: done,
	wipe: done,
	degrease: done,
	tack: done,
	mask: done,
	unmask: may(value(unmaskRead)),
	inspect: done,
	'turn over': done,
	'leave out': leaveOut,
	only: may(list(placed(value(name)), 1)),
};
export type StageEntry = Entry<typeof stageShape>;

const readStageMap = map(stageShape);

export type StageDraft = { at: number; words: StepKey[]; entry: StageEntry | null };
/** `wipe`, or several words of preparation on one line. */
const stepsRead = fromText((text, ctx): StepKey[] => {
	const words = text.split(/\s*,\s*/);
	const unknown = words.find(one => !isStepKey(one));
	if (unknown === undefined) return words.filter(isStepKey);
	const like = likeliest(unknown, stepKeys);
	return complain(ctx, `allowed: ${stepKeys.join(', ')}${like ? `; nearest: ${like}` : ''}`);
});
/** A stage is a map, or words of preparation: `- wipe, tack`. */
export const readStage: Reader<StageDraft> = (source, node, what, at) => {
	const own = offsetOf(node, at);
	if (!isScalar(node)) {
		const entry = readStageMap(source, node, what, at);
		return entry && { at: own, words: [], entry };
	}
	const words = value(stepsRead)(source, node, what, at);
	return words && { at: own, words, entry: null };
};
