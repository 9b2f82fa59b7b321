import { balanceOf, laidOut, type Setting, type Shape, standardLead_mm } from '../../src/film/balance.ts';
import { filmOver } from '../../src/film/map.ts';
import type { Fan } from '../../src/trade/fan.ts';

/** The figures that the check values are worked out with: the example sheet's gun and primer. */

export const inch_mm = 25.4;
export const mil_um = 25.4;
export const sevenFlOz_mL = 7 * 29.5735295625;
export const fan: Fan = { width_mm: 8 * inch_mm, depth_mm: 2 * inch_mm, beta1: 3, beta2: 3 };

export const setting = (over: Partial<Setting> = {}): Setting => ({
	...{ fan, overlap: 0.5, transfer: 0.65, turn_s: 0.5, held: false, first: null },
	lead_mm: standardLead_mm(over.fan ?? fan),
	...over,
});

export const shape = (along_mm: number, across_mm: number, over: Partial<Shape> = {}): Shape => ({
	...{ along_mm, across_mm, pieces: 1, corner: false },
	area_m2: (along_mm * across_mm) / 1e6,
	...over,
});

/** Along and across the strokes, in. */
export const faces = {
	'door outside': [22, 34],
	'corner box': [20, 24],
	'lid top': [24, 36],
	'lid top, crosswise': [36, 24],
	'arch outside': [30, 14],
	'canopy rail': [60, 5],
	'door edges': [96, 2],
	'lid edges': [120, 2],
	'arch lip': [40, 3],
} as const satisfies Record<string, readonly [number, number]>;

export const ten: (keyof typeof faces)[] = [
	...(['door outside', 'door outside', 'door edges', 'door edges'] as const),
	...(['corner box', 'lid top', 'lid edges', 'arch outside', 'arch lip', 'canopy rail'] as const),
];

export const shapeOf = (name: keyof typeof faces, over: Partial<Shape> = {}): Shape => {
	const [along, across] = faces[name];
	return shape(along * inch_mm, across * inch_mm, over);
};

/** 1.0 mil dry of the primer: 46 % solids, thinned 15 %. */
export const wet_um = mil_um / 0.4;

export function sprayed(face: Shape, how: Setting = setting(), wanted_um = wet_um, flow = sevenFlOz_mL) {
	const laid = laidOut(face, how);
	const balance = balanceOf(laid, wanted_um, flow);
	return { ...balance, laid, film: filmOver(laid, balance.lead_mm) };
}
