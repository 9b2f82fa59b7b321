import type { Lost } from '../day/file/lost.ts';
import { inert } from '../job/inert.ts';

const what: Record<Lost['what'], string> = {
	torn: 'were no whole record, as after a power cut, and do not count',
	other: 'were written by something else while the day was open',
};

/** What a disk lost of a day at one place, in one sentence. */
export const lostLine = ({ what: kind, behind, bytes, kept }: Lost): string => {
	const where = kept === null ? 'they still stand at its end' : `they are kept in ${inert(kept)}`;
	return `Behind record ${behind}, ${bytes} bytes ${what[kind]}: ${where}.`;
};
