import type { Table } from './effects.ts';

/**
 * TM 43-0139 pp. 5-11 and 5-12 with §5-30 and §5-31, as the facts at hand give it: not opened here, from memory where the facts are
 * silent. A second table, kept apart: nothing is tuned on it.
 */
const table: Table = {
	// Heavy top or bottom, split, heavy centre: the pattern itself (pp. 5-11, 5-12).
	'bad-pattern': ['stripes', 'run', 'spit'],
	// Sags: thick paint (p. 5-12) and thinned too far (§5-30): the manual has both.
	'viscosity-off thick': ['run', 'sag', 'orange-peel', 'spit'],
	'viscosity-off thin': ['run', 'sag'],
	'wrong-ratio reducer over': ['run', 'sag'],
	'wrong-ratio reducer short': ['orange-peel'],
	// Too much material, gun too slow (p. 5-12). From memory.
	'film-too-heavy': ['run', 'sag'],
	'too-many-coats': ['run', 'sag'],
	'gun-too-near': ['run', 'sag', 'orange-peel'],
	// Dry spray: too far, pressure too high (p. 5-12). From memory.
	'gun-too-far': ['dry-spray'],
	'pressure-off high': ['dry-spray', 'run'],
	'pressure-off low': ['orange-peel'],
	// Orange peel: unsuitable thinner, dry air and draughts (p. 5-12). From memory.
	'wrong-can reducer': ['orange-peel', 'blush'],
	'air-out-of-limits warm': ['orange-peel'],
	// Cold: cures late (§5-31). Damp: blush. From memory.
	'air-out-of-limits cold': ['stays-soft'],
	'air-out-of-limits humid': ['blush'],
	// Spitting: air in the fluid, loose tip, low cup; dirt in the fluid way. From memory.
	'dirt-in-paint': ['spit'],
	'air-line': ['fisheye', 'blush'],
	surface: ['peeling', 'fisheye'],
};

export const fromManual = { source: 'TM 43-0139', table };
