import type { View } from '../day/view.ts';

/** All that a choice has nothing to say about. */
export const nothingElse = (): Omit<View, 'at' | 'state' | 'ask' | 'say' | 'lines' | 'corners'> => ({
	zone: 'UTC',
	unit: null,
	face: null,
	coat: null,
	coats: null,
	do: [],
	timers: [],
	faces: [],
	open: [],
	rehearsal: false,
});
