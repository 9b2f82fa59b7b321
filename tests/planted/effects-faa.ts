import type { Table } from './effects.ts';

/**
 * FAA-H-8083-31 ch. 8, common paint troubles. Seen in a mirror: poor adhesion, blushing, and pinholes by contaminants or coats too
 * heavy or wet. The rest is from memory: sags and runs, orange peel, fisheyes, wrinkling, spray dust. Poor adhesion is *peeling*
 * here, spray dust *dry spray*. The handbook speaks of thinning and of mixing: both are laid to the ratio, thinning to the cup too.
 */
const table: Table = {
	// Sags and runs: gun too close. From memory.
	'gun-too-near': ['run', 'sag'],
	// Spray dust: gun too far. From memory.
	'gun-too-far': ['dry-spray'],
	// Sags and runs: too much paint, gun too slow, from memory. Pinholes: coats too heavy or wet, seen. Wrinkling, from memory.
	'film-too-heavy': ['run', 'sag', 'pinholes', 'wrinkling'],
	// Too much paint in one place; a heavy coat over one that is not dry. From memory.
	'too-many-coats': ['run', 'sag', 'wrinkling'],
	// Orange peel: gun not adjusted, from memory. Sags and runs: air and paint out of balance, from memory.
	'pressure-off low': ['orange-peel', 'sag'],
	// Blushing: air pressure too high, seen. Spray dust: pressure wrong, from memory.
	'pressure-off high': ['blush', 'dry-spray'],
	// Orange peel and spray dust: gun or pattern not adjusted. From memory.
	'bad-pattern': ['orange-peel', 'dry-spray'],
	// Poor adhesion: improper mixing, seen.
	'no-hardener': ['peeling'],
	'wrong-ratio hardener short': ['peeling'],
	'wrong-ratio hardener over': ['peeling'],
	'wrong-can hardener': ['peeling'],
	// Orange peel, spray dust: too little reducer, from memory.
	'wrong-ratio reducer short': ['orange-peel', 'dry-spray'],
	// Sags and runs: too much reducer, from memory. Poor adhesion: improper thinning, seen.
	'wrong-ratio reducer over': ['run', 'sag', 'peeling'],
	'viscosity-off thick': ['orange-peel', 'dry-spray'],
	'viscosity-off thin': ['run', 'sag'],
	// Wrong reducer. Blushing and poor adhesion: seen. Pinholes, orange peel, wrinkling, spray dust: from memory.
	'wrong-can reducer': ['blush', 'peeling', 'pinholes', 'orange-peel', 'wrinkling', 'dry-spray'],
	// Blushing: above 80 %, below 60 or above 95 °F, seen. Orange peel: too hot or too cold, from memory.
	'air-out-of-limits humid': ['blush', 'blush'],
	'air-out-of-limits cold': ['blush', 'orange-peel'],
	'air-out-of-limits warm': ['blush', 'orange-peel'],
	// Pinholes: contaminants in the air lines; poor adhesion: contaminated air. Both seen.
	'air-line': ['pinholes', 'peeling'],
	// Pinholes: contaminants in the paint, seen.
	'dirt-in-paint': ['pinholes'],
	// Orange peel: too little flash; wrinkling: a coat over one that is not dry. From memory.
	'coat-too-early': ['orange-peel', 'wrinkling'],
	// Poor adhesion: cleaning, seen. Fisheyes: silicone or wax left on, from memory.
	surface: ['peeling', 'fisheye'],
	// Orange peel: not mixed evenly. From memory.
	'not-stood': ['orange-peel'],
};

export const fromHandbook = { source: 'FAA-H-8083-31 ch. 8', table };
