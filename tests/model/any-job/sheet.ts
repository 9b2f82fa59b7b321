import { type Chance, chanceOf } from '../keys/chance.ts';

/**
 * Job sheets by chance, as text: steps that come twice, waits between them, work after the last coat, tables that come back
 * to *spray*, shops from cold to hot. Invented, at the Pump Yard workshop; the same for the same seed.
 */

/** Windows of a coat over another, in hours of its own first wait. */
const tables: readonly (readonly [does: string, until: number | null][])[] = [
	[
		['wait', 1],
		['spray', 5],
		['scuff', 12],
		['sand', null],
	],
	// A lifting zone: open, shut, open again.
	[
		['wait', 1],
		['spray', 4],
		['wait', 9],
		['spray', 30],
		['sand', null],
	],
	// Back to spray after scuff.
	[
		['wait', 1],
		['spray', 3],
		['scuff', 5],
		['spray', 9],
		['sand', null],
	],
	[
		['wait', 1],
		['spray', 6],
		['wait', 8],
		['scuff', 12],
		['spray', 40],
		['scuff', 60],
		['sand', null],
	],
];

/** What stands before a stage of coats. */
const works: readonly (readonly string[])[] = [
	['wipe', 'sand: 320 grit', 'wipe', 'tack'],
	['sand: 320 grit', 'fill', 'sand: 600 grit'],
	['sand: 320 grit', 'fill', 'sand: 600 grit', 'wipe', 'tack'],
	['scuff', 'wipe', 'tack'],
	['wipe', 'wipe', 'tack', 'tack'],
	['mask', 'wipe', 'tack'],
	['tack'],
	['wipe'],
	[],
];

const minutes = (value: number) => `${Math.round(value)} min`;

function windows(chance: Chance, flash_min: number): string {
	let from = 0;
	const spans = chance.pick(tables).map(([does, until]) => {
		const start = from;
		from = until === null ? from : until * flash_min;
		return until === null
			? `${does}: from ${minutes(start)}`
			: `${does}: ${minutes(start)} to ${minutes(from)}`;
	});
	return `[${spans.join(', ')}]`;
}

function rows(chance: Chance, under: string, flash_min: number): string {
	const split = chance.pick([null, null, 22]);
	const row = (range: string, times: number) =>
		`      - { over: ${under}, surface: ${range}, windows: ${windows(chance, flash_min * times)} }\n`;
	return split === null ? row('14 to 30 °C', 1) : row('12 to 21 °C', 2) + row('22 to 32 °C', 1);
}

const ratios = ['1:1', '2:1', '4:1', '10:1', '2:1:1', '5:1:1'];
const orders = [
	'[stir, base, hardener, reducer, stand, strain, cup]',
	'[stir, base, hardener, stand, reducer, strain]',
	'[stir, base, hardener, reducer, strain]',
];

/** Whether the ratio leaves room for thinning beyond it. */
const isThinnedBeside = (ratio: string) => ratio.split(':').length === 2;

function material(chance: Chance, name: string, unders: readonly string[]): string {
	const flash_min = chance.pick([12, 20, 30, 45]);
	const ratio = chance.pick(ratios);
	const order = chance.pick(orders);
	const thinned = isThinnedBeside(ratio);
	const isStood = order.includes('stand');
	const steps = thinned || ratio.split(':').length === 3 ? order : order.replace('reducer, ', '');
	const isocyanate = chance.next() < 0.5;
	return `  ${name}:
    name: ${name === 'primer' ? 'Grey primer' : 'Cream topcoat'}
    isocyanate: ${isocyanate ? 'yes' : 'no'}
    breathing: { spraying: ${isocyanate ? 'supplied air' : 'filter mask with A2-P3'} }
    ratio: ${ratio} by volume
${thinned ? '    reducer: 15%\n' : ''}    order: ${steps}
    solids: 46%
    coats: { medium: { film: 20 um }, full: { film: 30 um } }
    sags above: 130 um
    pot life: ${chance.pick(['30 min', '90 min', '2 h', '4 h', '6 h'])} at 21 °C
    standing: ${isStood ? chance.pick(['5 min', '10 min', '15 min', '20 min']) : 'none'}
    strainer: 190 micron
    flash: { from: ${minutes(flash_min)}, to: ${minutes(flash_min * chance.pick([3, 5]))}, at: 21 °C, touch: [tacky, dry] }
    wet edge: 2 min
    wet the tip: 15 min
    flush: 45 min
    recoat:
${unders.map(under => rows(chance, under, flash_min)).join('')}    sand after: [${chance.pick(['1 h', '3 h'])} at 18 °C, 45 min at 27 °C]
    grit: 320
${steps.includes('cup') ? '    cup: { kind: iso4, runs: 20 to 26 s }\n' : ''}    limits: { air: 10 to 38 °C, humidity: 85%, over dew point: 3 °C }
`;
}

const waits = ['20 min', '45 min', '90 min', '150 min', '3 h', '6 h', '20 h'];

/** Steps with waits put among them. */
function worked(chance: Chance, isFirst: boolean): string[] {
	const steps = chance.pick(works).flatMap(step => {
		const isWaiting = (step === 'fill' && chance.next() < 0.7) || chance.next() < 0.06;
		return isWaiting ? [step, `wait: ${chance.pick(waits)}`] : [step];
	});
	return !isFirst && chance.next() < 0.6 ? [`wait: ${chance.pick(waits)}`, ...steps] : steps;
}

const coatLists = ['[full]', '[medium, full]', '[medium, medium, full]'];

function stages(chance: Chance, materials: readonly string[], parts: readonly string[]): string {
	const count = chance.pick([1, 2, 2, 3]);
	const sprays = Array.from({ length: count }, (_, index) => {
		const material = materials[Math.min(index, materials.length - 1)] ?? 'primer';
		const left = index > 0 && parts.length > 1 && chance.next() < 0.2 ? `, leave out: [${parts.at(-1)}]` : '';
		return [
			...worked(chance, index === 0),
			`{ spray: ${material}, coats: ${chance.pick(coatLists)}${left} }`,
		];
	});
	const last = chance.next() < 0.5 ? [...chance.pick([[], ['wait: 30 min'], ['wait: 2 h']]), 'unmask'] : [];
	return [...sprays.flat(), ...last].map(stage => `  - ${stage}\n`).join('');
}

const names = ['counter lid', 'left door', 'canopy rail'];
const shapes = [
	'attitude: upright, stroke: up and down, size: 5 cm x 200 cm',
	'attitude: upright, stroke: side to side, size: 60 cm x 50 cm',
	'attitude: flat, near edge: front, stroke: to and fro, size: 50 cm x 40 cm',
	'attitude: upright, stroke: up and down, tilt: left, size: 8 cm x 100 cm',
];

function part(chance: Chance, name: string): string {
	const faces = Array.from({ length: chance.pick([1, 2, 2, 3]) }, (_, index) => {
		const after = index > 0 && chance.next() < 0.5 ? ', after: [side 1]' : '';
		return `      - { face: side ${index + 1}, ${chance.pick(shapes)}${after} }\n`;
	});
	return `  - part: ${name}\n    faces:\n${faces.join('')}`;
}

/** The text of a job sheet. */
export function sheetBy(seed: number, draw = 0): string {
	const chance = chanceOf(seed * 104_729 + draw * 7_001 + 7);
	const materials = chance.pick([['primer'], ['primer', 'topcoat'], ['primer', 'topcoat']]);
	const parts = names.slice(0, chance.pick([1, 2, 2, 3]));
	const us = chance.next() < 0.3;
	return `name: Any job ${seed}
units: ${us ? 'us' : 'metric'}
shop: { air: ${chance.pick([15, 18, 21, 21, 24, 28, 33, 36])} °C, humidity: 45%, day: ${chance.pick([9, 16, 40])} h }
gun:
  pressure: 200 kPa
  fan: 200 mm
  fan depth: 50 mm
  distance: 150 mm
  overlap: 50%
  flow: 200 mL/min
  speed: 350 mm/s
  transfer: 65%
  cup: { holds: ${chance.pick([150, 400, 600])} mL, kind: gravity }
materials:
${materials.map((name, index) => material(chance, name, materials.slice(0, index + 1))).join('')}stages:
${stages(chance, materials, parts)}order: ${chance.pick(['as written', 'fewest turns', 'wettest edge'])}
parts:
${parts.map(name => part(chance, name)).join('')}`;
}
