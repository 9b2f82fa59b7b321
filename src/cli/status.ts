import type { DayFileError, TroubleKind } from '../day/file/trouble.ts';

const answersNo: readonly TroubleKind[] = ['damaged', 'locked', 'overtaken', 'clock', 'shelf'];

/** Exit status for a day that cannot be opened: 1 where the answer is no, damaged or held by another; else 2. */
export const statusOf = ({ kind }: DayFileError): 1 | 2 => (answersNo.includes(kind) ? 1 : 2);
