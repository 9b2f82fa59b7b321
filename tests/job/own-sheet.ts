/** Job sheets of one's own, of any size: nothing of the example is in them but its setting. */

export type OwnFace = {
	attitude: 'upright' | 'flat' | 'underside';
	stroke: 'side' | 'along';
	tilt: 'none' | 'left' | 'right';
	size_cm: [number, number];
	crosswise: number[];
};

const materials = {
	sealer: `
    isocyanate: no
    ratio: 4:1 by volume
    reducer: 10%
    order: [stir, base, hardener, reducer, strain]
    solids: 38%
    coats: { medium: { film: 15 um } }
    sags above: 140 um
    pot life: 6 h at 21 °C
    standing: none
    strainer: 190 micron
    flash: { from: 20 min, at: 21 °C }
    wet edge: 90 s
    wet the tip: 15 min
    flush: 45 min
    limits: { air: 12 to 35 °C, humidity: 80%, over dew point: 3 °C }`,
	filler: `
    name: High-build primer
    isocyanate: no
    ratio: 100:18 by weight
    reducer: 12 parts
    density: { base: 1.42 kg/L, hardener: 1.02 kg/L, reducer: 0.87 kg/L }
    order: [stir, base, hardener, stand, reducer, strain, cup]
    solids: 52% ± 3%
    coats: { medium: { film: 35 um }, full: { film: 45 um, reducer: 6 parts } }
    sags above: 220 um
    pot life: 2 h at 20 °C
    standing: 10 min
    strainer: 190 micron
    flash: { from: 15 min, to: 60 min, at: 20 °C, touch: [tacky, dry] }
    wet edge: 60 s
    wet the tip: 10 min
    flush: 30 min
    recoat:
      - over: sealer
        surface: 15 to 30 °C
        windows: [wait: 0 to 30 min, spray: 30 min to 72 h, scuff: from 72 h]
    sand after: [16 h at 20 °C]
    grit: 320
    cup: { kind: ford4, runs: 20 to 26 s }
    limits: { air: 15 to 35 °C, humidity: 75%, over dew point: 3 °C }`,
	gloss: `
    isocyanate: yes
    ratio: 2:1:1 by volume
    order: [stir, base, hardener, reducer, strain]
    solids: 50%
    coats: { tack: { film: 10 um }, full: { film: 28 um } }
    sags above: 95 um
    pot life: 2 h at 21 °C
    standing: none
    strainer: 125 micron
    flash: { from: 20 min, to: 60 min, at: 21 °C, touch: tacky }
    wet edge: 5 s
    wet the tip: 10 min
    flush: 30 min
    recoat:
      - over: filler
        surface: 15 to 30 °C
        windows: [wait: 0 to 4 h, spray: 4 h to 10 h, sand: from 10 h]
    limits: { air: 15 to 32 °C, humidity: 70%, over dew point: 3 °C }`,
};

const flatWork = (face: OwnFace): boolean => face.attitude !== 'upright';

function faceText(face: OwnFace, index: number): string {
	const along = flatWork(face) ? 'to and fro' : 'up and down';
	return [
		`      - face: face ${index}`,
		`        attitude: ${face.attitude}`,
		`        stroke: ${face.stroke === 'side' ? 'side to side' : along}`,
		`        tilt: ${face.tilt}`,
		`        size: ${face.size_cm[0]} cm x ${face.size_cm[1]} cm`,
		...(flatWork(face) ? ['        near edge: front'] : []),
		...(face.crosswise.length > 0 ? [`        crosswise: [${face.crosswise.join(', ')}]`] : []),
		...(index > 0 ? [`        after: [face ${index - 1}]`] : []),
	].join('\n');
}

/**
 * A sheet of three materials over four days.
 * @param faces split over parts of so many faces each
 */
export function ownSheet(faces: OwnFace[], perPart = 4): string {
	const parts: string[] = [];
	for (let from = 0; from < faces.length; from += perPart) {
		const some = faces.slice(from, from + perPart).map(faceText);
		parts.push(
			`  - part: shelf ${from / perPart + 1}\n    place: ${from / perPart + 1}\n    faces:\n${some.join('\n')}`,
		);
	}
	return `name: Shelves of the market cart
units: metric
shop: { air: 21 °C, humidity: 45% }
gun:
  pressure: 2 bar
  fan: 24 cm
  distance: 18 cm
  overlap: 60%
  flow: 220 mL/min
  speed: 400 mm/s
  transfer: 70%
  cup: { holds: 600 mL, kind: gravity }
materials:
${Object.entries(materials)
	.map(([id, text]) => `  ${id}:${text}`)
	.join('\n')}
stages:
  - spray: sealer
    coats: medium
  - spray: filler
    name: build
    coats: [medium, full]
  - wait: 16 h
  - sand
  - wipe
  - spray: gloss
    coats: [tack, full, full]
parts:
${parts.join('\n')}
`;
}

/** So many faces of every attitude, stroke and tilt. */
export const someFaces = (count: number): OwnFace[] =>
	Array.from({ length: count }, (_, index) => ({
		attitude: (['upright', 'flat', 'upright', 'underside'] as const)[index % 4] ?? 'upright',
		stroke: index % 3 === 0 ? 'along' : 'side',
		tilt: (['none', 'none', 'left', 'none', 'right'] as const)[index % 5] ?? 'none',
		size_cm: [30 + (index % 7) * 5, 20 + (index % 11) * 5],
		crosswise: index % 6 === 0 ? [2] : [],
	}));
