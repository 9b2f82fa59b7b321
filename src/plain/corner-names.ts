import type { Corner } from '../day/view.ts';

export const cornerNames: Record<Corner, string> = {
	topLeft: 'top left',
	topRight: 'top right',
	bottomLeft: 'bottom left',
	bottomRight: 'bottom right',
};
