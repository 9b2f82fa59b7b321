import type { RecordOf } from './of-type.ts';

/** What stands for the kind of cup where none was timed: the sheet has no seconds, or the pot holds less than a cup takes. */
export const noCup = 'none';

/** Whether a flow cup was really timed. */
export const isTimed = ({ cup }: RecordOf<'cup.timed'>): boolean => cup !== noCup;
