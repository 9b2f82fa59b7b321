import type { Corner } from '../day/view.ts';
import type { Answering } from './hints.ts';

export type Size = { columns: number; rows: number };

/** What only the screen knows: half-typed entries, a passing notice, a corner chosen but not confirmed, the keys. */
export type Passing = Answering & {
	typed: string;
	notice: string | null;
	chosen: Corner | null;
};

export const nothingPassing: Passing = { typed: '', notice: null, chosen: null, counted: false, keys: null };
