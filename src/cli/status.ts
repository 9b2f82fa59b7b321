import type { DayFileError } from '../day/file/trouble.ts';

/** Exit status for a day that cannot be opened: 1 where the answer is no, damaged or held by another; else 2. */
export const statusOf = ({ kind }: DayFileError): 1 | 2 => (kind === 'damaged' || kind === 'locked' ? 1 : 2);
