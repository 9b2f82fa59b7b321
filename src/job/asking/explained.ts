import type { ShelfKind } from '../shelf.ts';

/** What each line of a data sheet is and where it stands, for whoever answers `?`. Sections of the safety sheet: GHS, from memory. */
export const explained: Readonly<Record<ShelfKind, Readonly<Record<string, string>>>> = {
	material: {
		ratio: 'How much hardener the base wants, and whether it is measured or weighed.',
		density: 'What a litre of each weighs: a ratio by weight is turned into levels by it.',
		reducer: 'What thins the mix, as a share of base and hardener together.',
		order: 'Which can goes in after which; left out, each is stirred in by itself.',
		standing: 'How long the mix must stand before it is sprayed.',
		'pot life': 'How long the mix can be used, and how warm it is then.',
		strainer: 'How fine the mix is strained; left out, 190 micron.',
		coats: 'How thick each kind of coat is once it has dried.',
		'sags above': 'The wettest film that hangs on an upright face without running.',
		flash: 'From when to when the next coat of the same material may follow.',
		recoat: 'Over which material, how warm, and what each span of hours allows.',
		'sand after': 'When a coat is hard enough to be sanded.',
		'dry to': 'When a part may be picked up by the coat and turned over.',
		grit: 'The paper that this material is sanded with before the next coat.',
		'wet edge': 'How long a stroke can still be joined without a seam.',
		'wet the tip': 'After how long in the gun the paint begins to dry at the tip.',
		flush: 'After how long in the gun it has to be flushed.',
		solids: 'What of the mix stays on the part; it gives wet film and amounts.',
		limits: 'Air, surface and humidity between which the data sheet lets it be sprayed.',
		isocyanate: 'Section 3 of the safety sheet names it; the hardener mostly has it.',
		breathing: 'What section 8 of the safety sheet asks for at each work.',
	},
	gun: {
		pressure: 'Read at the gun with the trigger pulled, not at the wall.',
		fan: 'How high the pattern is on paper, and from how far off.',
		'fan depth': 'How deep the pattern is across its height.',
		flow: 'What a cup catches in so many seconds, trigger pulled.',
		overlap: 'How much of a stroke the next one covers.',
		transfer: 'What lands of the paint that leaves the gun.',
		cup: 'What the cup holds, and how the paint comes out of it.',
	},
	shape: {
		is: 'One of the shapes that sheets have; faces, areas and strokes follow from it.',
		held: 'As it mostly is; a sheet may hold it in another way.',
		'hold by': 'A hook or a stem that it is turned by while wet, if any.',
	},
	shop: {
		units: 'us: fl oz, mil, °F and psi; metric: mL, µm, °C and bar.',
		air: 'The plan counts waits by it; on the day it is read.',
		humidity: 'The plan counts by it; on the day it is read.',
		day: 'The plan keeps to them, and a night lasts until they begin.',
	},
};
