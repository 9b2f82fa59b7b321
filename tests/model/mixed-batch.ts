import type { DayEvent } from '../../src/day/records.ts';
import type { MixStep } from '../../src/job/job.ts';
import type { Broken } from './properties.ts';

/** A batch as its records tell of it. */
export type MixedBatch = {
	material: string;
	order: readonly MixStep[];
	/** Steps that still stand open, in the order of the data sheet. */
	open: readonly MixStep[];
	/** Components of which some is in the pot. */
	inPot: readonly string[];
	/** The mark on the can in the hand was read for the pour to come. */
	can: boolean;
	/** Broken off, and nobody has said yet what the pot shows. */
	adrift: boolean;
	/** Nobody knows what is in it. */
	unknown: boolean;
	/** Something went in, or it stood, since its pot was last stirred. */
	unstirred: boolean;
	/** What was passed over with a reason: its seconds in the flow cup, the marks of its pot. */
	passedOver: readonly string[];
	stage: 'mixing' | 'ready' | 'in the cup' | 'discarded';
};

export const newBatch = (material: string, order: readonly MixStep[]): MixedBatch => ({
	material,
	order,
	open: order,
	inPot: [],
	can: false,
	adrift: false,
	unknown: false,
	unstirred: false,
	passedOver: [],
	stage: 'mixing',
});

export const pours = ['base', 'hardener', 'reducer', 'accelerator', 'flattener'];
const isPour = (step: string | undefined): step is MixStep => step !== undefined && pours.includes(step);

const closed = (batch: MixedBatch): MixedBatch => ({ ...batch, open: batch.open.slice(1), can: false });

/** A level was read: what it says of the component and of the others. */
function levelRead(before: MixedBatch, component: string, found: string): MixedBatch {
	if (component !== before.open[0]) return before;
	const batch = { ...before, unstirred: true };
	const inPot = [...new Set([...batch.inPot, component])].sort();
	if (found === 'right') return closed({ ...batch, inPot });
	if (found === 'short') return { ...batch, inPot };
	return { ...batch, inPot, open: toppedUp({ ...batch, inPot }, component), can: false };
}

/**
 * Too much of one: all the others go in again, up to the larger batch, and what stood open after them still does. The
 * pot is stirred once after each, as the data sheet has it; the can of the base was stirred before it was poured.
 */
function toppedUp({ order, open, inPot }: MixedBatch, over: string): MixStep[] {
	const again: MixStep[] = [];
	let isPoured = false;
	for (const step of order) {
		isPoured ||= isPour(step);
		const isOpen =
			step === 'stir' ? isPoured && again.at(-1) !== 'stir' && open.includes(step) : open.includes(step);
		if (step !== over && (isOpen || inPot.includes(step))) again.push(step);
	}
	return again;
}

function found(batch: MixedBatch, component: string, level: string): MixedBatch {
	if (!batch.adrift) return batch;
	const answered = { ...batch, adrift: false };
	if (level === 'before') return { ...answered, can: false };
	const mayTell = batch.can && component === batch.open[0];
	if (mayTell && level !== 'unknown') return { ...levelRead(answered, component, level), can: false };
	/** Only base is in, and only base went in: whatever the level, more of it does no harm. */
	const onlyBase = batch.open[0] === 'base' && batch.inPot.every(one => one === 'base');
	if (batch.can && onlyBase) return { ...answered, can: false };
	return { ...answered, unknown: true };
}

/** The seconds are passed over in their place, the marks of the pot before anything is done. */
function overridden(batch: MixedBatch, rule: string): MixedBatch {
	const noted = { ...batch, passedOver: [...batch.passedOver, rule] };
	if (rule === 'marks') return noted;
	return rule === 'cup' && batch.open[0] === 'cup' ? closed(noted) : batch;
}

/** The batch after an event that was accepted and speaks of it. */
export function mixedAfter(batch: MixedBatch, event: DayEvent): MixedBatch {
	const { stage } = batch;
	switch (event.type) {
		case 'reading.taken':
			return event.feature === 'can' && event.matched && isPour(batch.open[0]) && !batch.adrift
				? { ...batch, can: true }
				: batch;
		case 'batch.poured':
			return levelRead(batch, event.component, event.found);
		case 'batch.found':
			return found(batch, event.component, event.found);
		case 'batch.stepped':
		case 'batch.stood':
		case 'cup.timed': {
			const step =
				event.type === 'batch.stepped' ? event.step : event.type === 'batch.stood' ? 'stand' : 'cup';
			const done = event.type !== 'cup.timed' || event.fits;
			const unstirred = step === 'stand' || (step !== 'stir' && batch.unstirred);
			return done && batch.open[0] === step ? closed({ ...batch, unstirred }) : batch;
		}
		case 'override.given':
			return overridden(batch, event.rule);
		case 'break.began': {
			const touched = batch.inPot.length > 0 || batch.can;
			const resting = batch.open[0] === 'stand' || batch.open.length === 0;
			return stage === 'mixing' && touched && !resting && !batch.unknown ? { ...batch, adrift: true } : batch;
		}
		case 'batch.ready':
			return { ...batch, stage: 'ready' };
		case 'batch.loaded':
			return { ...batch, stage: 'in the cup' };
		case 'cup.emptied':
			return stage === 'in the cup' ? { ...batch, stage: 'ready' } : batch;
		case 'batch.discarded':
			return { ...batch, stage: 'discarded' };
		default:
			return batch;
	}
}

/** The data sheet has the pot stirred after all that goes in, and after it has stood. */
const stirsLast = ({ order }: MixedBatch): boolean =>
	order.lastIndexOf('stir') > order.findLastIndex(step => isPour(step) || step === 'stand');

/** What an accepted step of mixing breaks of the rules for mixing (13). */
export function wrongMixing(batch: MixedBatch, event: DayEvent): Broken[] {
	const broken: Broken[] = [];
	const says = (text: string) => broken.push({ property: 13, says: text });
	const { open, stage } = batch;
	const isMixing = stage === 'mixing' && !batch.adrift && !batch.unknown;
	switch (event.type) {
		case 'batch.poured':
			if (!isMixing) says('poured before the pot was looked at, or into a batch that is done with');
			if (event.component !== open[0]) says(`${event.component} poured where ${open[0]} is due`);
			if (!batch.can) says(`${event.component} poured from a can that was not read`);
			break;
		case 'batch.found':
			if (!batch.adrift) says('the level asked for with nothing broken off');
			break;
		case 'batch.stepped':
			if (!isMixing || event.step !== open[0]) says(`${event.step} where ${open[0]} is due`);
			break;
		case 'batch.stood':
			if (open[0] !== 'stand' || stage !== 'mixing') says('stood where it does not stand');
			if (event.facts?.stood !== true) says('not stood long enough');
			break;
		case 'cup.timed':
			if (!isMixing || open[0] !== 'cup') says(`timed where ${open[0]} is due`);
			break;
		case 'override.given': {
			const inPlace = { cup: open[0] === 'cup', marks: open.length === batch.order.length };
			if (!Object.entries(inPlace).some(([rule, may]) => may && rule === event.rule))
				says(`${event.rule} passed over where ${open[0]} is due`);
			if (batch.passedOver.includes(event.rule)) says(`${event.rule} passed over twice`);
			break;
		}
		case 'batch.ready':
			if (!isMixing || open.length > 0) says(`ready with open: ${open.join(', ')}`);
			if (!batch.inPot.includes('hardener')) says('ready with no hardener read');
			if (!batch.inPot.includes('base')) says('ready with no base read');
			if (batch.unstirred && stirsLast(batch))
				says('ready and not stirred since something went in, or it stood');
			break;
		case 'batch.loaded':
			if (stage !== 'ready' && stage !== 'in the cup') says(`into the cup while ${stage}`);
			break;
		case 'batch.discarded':
			if (stage === 'in the cup') says('discarded out of the cup');
			break;
	}
	return broken;
}
