/** A line to write for every key that a sheet or a file of the shelf must have; figures are invented. */
const lines: Readonly<Record<string, string>> = {
	name: 'name: Eight garden chairs',
	units: 'units: metric',
	shop: 'shop: { air: 20 °C, humidity: 50% }',
	gun: 'gun: { pressure: 2 bar, fan: 25 cm, flow: 200 mL/min, cup: 600 mL gravity }',
	parts: 'parts: [{ part: seat, count: 8, shape: "panel, 40 x 38 x 3 cm", held: hanging }]',
	air: 'air: 20 °C',
	'limits, air': 'air: 12 to 32 °C',
	humidity: 'humidity: 50%',
	'limits, humidity': 'humidity: 75%',
	'over dew point': 'over dew point: 3 °C',
	holds: 'holds: 600 mL',
	pressure: 'pressure: 2 bar',
	fan: 'fan: 25 cm',
	flow: 'flow: 200 mL/min',
	cup: 'cup: 600 mL gravity',
	film: 'film: 30 µm',
	isocyanate: 'isocyanate: yes',
	ratio: 'ratio: 2:1 by volume',
	solids: 'solids: 50%',
	coats: 'coats: { tack: 15 µm, full: 30 µm }',
	'sags above': 'sags above: 100 µm',
	'pot life': 'pot life: 2 h at 20 °C',
	standing: 'standing: none',
	flash: 'flash: 15 min at 20 °C',
	recoat: 'recoat: 15 min to 2 h at 20 °C or sanded from 16 h',
	surface: 'surface: 15 to 30 °C',
	windows: 'windows: [wait: 0 to 30 min, spray: 30 min to 8 h, sand: from 8 h]',
	over: 'over: grey epoxy',
	limits: 'limits: { air: 12 to 32 °C, humidity: 75%, over dew point: 3 °C }',
	losses: 'losses: { pot: 10 mL, gun: 20 mL }',
	clearance: 'clearance: { time: 10 min, measured: 3 March }',
	face: 'face: top',
	attitude: 'attitude: upright',
	stroke: 'stroke: side to side',
	part: 'part: seat',
	is: 'is: panel, 40 x 38 x 3 cm',
};

/** The line to write for a key, by where it is missing if that makes a difference. */
export function lineToWrite(name: string, key: string): string {
	const inside = `${name.split(', ').at(-1)}, ${key}`;
	if (Object.hasOwn(lines, inside)) return lines[inside] ?? '';
	return Object.hasOwn(lines, key) ? (lines[key] ?? '') : `${key}: …`;
}

/** … and for a map that was written as a value; null: nothing better is known than that it has keys. */
export function mapToWrite(name: string): string | null {
	const key = name.split(', ').at(-1) ?? '';
	const line = Object.hasOwn(lines, key) ? lines[key] : undefined;
	return line?.includes('{') ? line : null;
}
