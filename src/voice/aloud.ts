/** How units and signs are said. One word for one: a sentence stays as long as it was. */
const said: Record<string, string> = {
	s: 'seconds',
	min: 'minutes',
	h: 'hours',
	mL: 'millilitres',
	L: 'litres',
	g: 'grams',
	kPa: 'kilopascals',
	psi: 'P.S.I.',
	mm: 'millimetres',
	µm: 'micrometres',
	mil: 'mils',
	in: 'inches',
	'°C': 'degrees',
	'°F': 'degrees',
	'%': 'percent',
	'+': 'plus',
};

/**
 * A sentence as a speaker is to read it: units in words after a number, capitals as words, and none of the marks
 * that some speakers take for commands.
 */
export function aloud(sentence: string): string {
	const plain = sentence.replace(/[[\]<>{}|\\^`~]/g, ' ').replace(/…/g, '');
	return plain
		.replace(/(\d) ?([a-zA-Zµ°%]+|\+)(?=[\s.,:;?!]|$)/g, (whole, digit: string, unit: string) =>
			said[unit] ? `${digit} ${said[unit]}` : whole,
		)
		.replace(/\p{Lu}{3,}/gu, word => word.toLowerCase())
		.replace(/\s+/g, ' ')
		.trim();
}
