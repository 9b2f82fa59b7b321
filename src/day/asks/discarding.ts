import { back, option, type Prompt } from '../prompt.ts';

/** A batch given up: one corner alone throws none away, for the hand may have slipped beside a digit. */
export const discardPrompt = (batch: string, why: string): Prompt => ({
	state: 'mix.discard',
	ask: 'choose',
	say: `Batch ${batch}: discard it? Nothing brings it back.`,
	options: [
		{ ...option('discard-it', 'DISCARD IT', { type: 'batch.discarded', batch, why }), at: 'topRight' },
		{ ...back('keep', 'KEEP IT'), at: 'bottomLeft' },
	],
});
