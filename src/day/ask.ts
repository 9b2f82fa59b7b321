import { accountPrompt, edgePrompt, oneGoPrompt, shutPrompt } from './asks/accounting.ts';
import { airPrompt, stuckPrompt } from './asks/air.ts';
import { mixPrompt } from './asks/batch-begin.ts';
import { checkPrompt } from './asks/checking.ts';
import { emptyPrompt, loadPrompt } from './asks/filling.ts';
import { closedPrompt, finishPrompt } from './asks/finishing.ts';
import { holdPrompt } from './asks/holding.ts';
import { leftOverPrompt } from './asks/left-over.ts';
import { missedPrompt } from './asks/missed.ts';
import { mixingPrompt, stoodPrompt } from './asks/mixing.ts';
import { dryPrompt, prepPrompt, touchPrompt } from './asks/preparing.ts';
import { readyPrompt, startOf } from './asks/ready.ts';
import { oneMorePrompt, reworkPrompt } from './asks/rework.ts';
import { sprayingPrompt } from './asks/spraying.ts';
import { strayPrompt } from './asks/stray.ts';
import { waitPrompt } from './asks/waiting.ts';
import { activityOf, type Moment } from './moment.ts';
import { nextStep, type Step } from './next.ts';
import { type Place, type Prompt, placeOn, type Ui } from './prompt.ts';

/** The question that stands at a moment, and where it stands. */
export const placeAt = (moment: Moment, { path }: Ui): Place => placeOn(firstPrompt(moment), path);

/** The question that stands before any answer. */
function firstPrompt(moment: Moment): Prompt {
	switch (activityOf(moment)) {
		case 'list':
		case 'check':
			return checkPrompt(moment);
		case 'mix':
			return mixingPrompt(moment);
		case 'spraying':
			return sprayingPrompt(moment);
		case 'wait':
			return waitPrompt(moment);
		case 'hold':
			return holdPrompt(moment);
		case 'closed':
			return closedPrompt(moment);
		default:
			return stepPrompt(moment, nextStep(moment));
	}
}

function stepPrompt(moment: Moment, step: Step): Prompt {
	switch (step.kind) {
		case 'account':
			return accountPrompt(moment, step.faces);
		case 'one-go':
			return oneGoPrompt(moment);
		case 'stray':
			return strayPrompt(
				moment,
				step.face === null ? null : { face: step.face, begin: startOf(moment, step.face) },
			);
		case 'air':
			return airPrompt(moment);
		case 'missed':
			return missedPrompt(moment, step.faces);
		case 'edge':
			return edgePrompt(moment, step.face);
		case 'shut':
			return shutPrompt(moment, step.face);
		case 'empty':
			return step.why === 'other-gun' ? leftOverPrompt(moment, 'flushed') : emptyPrompt(moment, step.why);
		case 'mix':
			return mixPrompt(moment, step.face);
		case 'resume':
			return stoodPrompt(moment, step.batch);
		case 'load':
			return loadPrompt(moment, step);
		case 'prep':
			return prepPrompt(moment, step);
		case 'stuck':
			return stuckPrompt(moment, step.face);
		case 'touch':
			return touchPrompt(moment, step.faces, step.coat);
		case 'dry':
			return dryPrompt(moment, step.face);
		case 'ready':
			return readyPrompt(moment, step.face);
		case 'rework':
			return reworkPrompt(moment, step.face, step.step);
		case 'one-more':
			return oneMorePrompt(moment, step.face);
		case 'finish':
			return finishPrompt(moment);
		case 'list':
		case 'check':
		case 'turn':
		case 'wait':
			// They begin by themselves, before anybody can look.
			return { state: `bench.${step.kind}`, ask: 'choose', say: 'One moment.' };
		default:
			return step satisfies never;
	}
}
