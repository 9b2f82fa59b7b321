import type { rehearsed } from '../day/rehearsed.ts';
import { smallJob, smallLists } from '../day/small-job.ts';
import { stoolJob } from '../day/stools.ts';

/** Ways to screens that no chance comes by often enough. */

type Day = ReturnType<typeof rehearsed>;
export type Script = { options: NonNullable<Parameters<typeof rehearsed>[0]>; play(day: Day): void };

const small = { job: smallJob(), lists: smallLists() };

/** A material whose data sheet gives no seconds for the flow cup. */
function withoutSeconds() {
	const { topcoat } = small.job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	return { ...small.job, materials: { topcoat: { ...topcoat, cup: null } } };
}

/** A material that lives no longer than it stands. */
function shortLived() {
	const { topcoat } = small.job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const order = topcoat.order.toSpliced(-2, 0, 'stand');
	return {
		...small.job,
		materials: { topcoat: { ...topcoat, order, standing_min: 15, potLife: { at_C: 21, hours: 0.25 } } },
	};
}

/** With an item on the supply, as the list that comes with the program has it. */
const onSuppliedAir = {
	...small,
	lists: small.lists.map(list => ({
		...list,
		items:
			list.list !== 'before-spraying'
				? list.items
				: [
						...list.items,
						{
							code: 'supply',
							say: 'Supplied air: flow at the hose, alarm, intake. What is there?',
							why: null,
							answers: [
								{ code: 'flows', text: 'FLOWS AND QUIET', passes: 'yes' as const },
								{ code: 'low', text: 'FLOW LOW', passes: 'no' as const },
							],
							overridable: false,
						},
					],
	})),
};

const inReady = (...codes: string[]): Script => ({
	options: small,
	play(day) {
		day.toState('ready');
		for (const code of ['trouble', ...codes]) day.pick(code);
	},
});

/** What breaks off a pass, each in its own words. */
const broken = (...lines: string[]): Script => ({
	options: small,
	play(day) {
		day.toState('spraying');
		day.send(...lines);
	},
});

/** Stools that are topcoated at once, on both sides. */
const bareTopcoat = (text: string): string =>
	text.replace(
		/stages:[\s\S]*order:/,
		'stages: [wipe, tack, { spray: topcoat, coats: [tack, full] }]\norder:',
	);

export const scripts: Script[] = [
	...['hold', 'kill', 'hangup', 'sleep 9 min', 'clock -30 min', 'clock 30 min', 'wait 20 min'].map(line =>
		broken(line),
	),
	broken('trigger on', 'trigger off', 'wait 30 s'),
	{
		options: small,
		play(day) {
			day.toState('ready');
			day.send('trigger on', 'wait 5 s', 'trigger off', 'screen');
			day.pick('elsewhere');
		},
	},
	{
		options: small,
		play(day) {
			day.toState('spraying');
			day.send('clock 30 min');
			day.pick('back');
		},
	},
	{
		options: small,
		play(day) {
			day.toState('ready');
			day.send('wait 4 min');
		},
	},
	{
		options: small,
		play(day) {
			day.toState('spraying');
			day.send('wait 3 s');
			day.pick('finished');
		},
	},
	{
		options: { ...small, job: shortLived() },
		play(day) {
			day.toState('mix.too-short-lived');
		},
	},
	broken('bottom-left', 'hold'),
	{
		options: small,
		play(day) {
			day.toState('load');
			day.pick('pot-empty');
		},
	},
	{
		options: small,
		play(day) {
			day.toState('spraying');
			day.send('wait 130 s');
			day.pick('finished');
		},
	},
	{
		options: { ...small, settings: { by: 'stretch', stretch_s: 130 } },
		play(day) {
			day.until(({ state, face }) => state === 'spraying' && face !== 'left door/edges');
			day.send('hold');
			day.pick('back');
		},
	},
	{
		options: small,
		play(day) {
			day.until(({ state, coat }) => state === 'spraying' && coat === 2);
			day.send('wait 20 s', 'hold', 'wait 3 h');
			for (const code of ['back', 'part', 'cannot-tell']) day.pick(code);
			day.until(({ state }) => state.startsWith('edge'));
			day.pick('go-on');
		},
	},
	{
		options: onSuppliedAir,
		play(day) {
			day.toState('ready');
			for (const code of ['trouble', 'air-lost', 'back', 'low']) day.pick(code);
		},
	},
	inReady('out-of-paint'),
	{
		options: small,
		play(day) {
			day.toState('gunCheck.batch');
			for (const code of ['another', 'empty-cup']) day.pick(code);
		},
	},
	{
		options: small,
		play(day) {
			day.toState('gunCheck.gauge');
			day.send('number 2');
		},
	},
	inReady('gun-fault', 'one-sided'),
	inReady('gun-fault', 'spits'),
	{ options: { ...small, job: withoutSeconds() }, play: day => void day.toState('mix.cup') },
	{
		options: small,
		play(day) {
			day.toState('mix.cup.seconds');
			day.send('number 10', 'number 30');
		},
	},
	{
		options: { ...small, settings: { units: 'us' } },
		play(day) {
			day.toState('mix.begin');
			day.pick('amount');
			day.send('number 1.8');
			day.pick('finer');
		},
	},
	{
		options: small,
		play(day) {
			day.toState('air.airC');
			day.send('number 16', 'number 71', 'number 13');
			day.pick('go-on');
			day.pick('own-words');
		},
	},
	{
		options: small,
		play(day) {
			day.toState('spraying');
			for (const code of ['trouble', 'wet-fault', 'all', 'run', 'left door/edges', 'set-part-aside', 'back'])
				day.pick(code);
			day.toState('finish');
			day.pick('stay');
			day.send(`wait ${day.line().timers[0]?.left_s} s`);
			day.toState('rework.clean');
		},
	},
	{
		options: small,
		play(day) {
			day.toState('finish');
			day.send('hold');
			for (const code of ['trouble', 'wet-fault', 'run', 'left door/flat', 'set-part-aside', 'back'])
				day.pick(code);
			day.toState('finish');
			day.pick('stay');
			day.toState('rework.clean');
			day.pick('done');
			day.pick('one-more');
		},
	},
	{
		options: { ...small, job: stoolJob(bareTopcoat) },
		play(day) {
			day.toState('touch.turning');
			day.pick('dry');
			day.pick('not-dry');
		},
	},
	{
		options: { ...small, job: stoolJob(bareTopcoat) },
		play(day) {
			day.toAsk('touch');
			day.painter.world.tab = 'strings';
			day.toState('missed');
			day.pick('spray');
		},
	},
];
