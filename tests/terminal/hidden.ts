import type { DayRecord } from '../../src/day/records.ts';
import { inUnit } from '../../src/trade/quantity.ts';
import type { Asking } from './day-at-terminal.ts';
import { look } from './eyes.ts';
import type { Frame } from './pty.ts';

/**
 * Whether what a reading should be could be had from the screen. From the first screen after the last *done*, or from
 * the first screen of the list that asks, until the key: the wanted answer, and the one keyed last, stand nowhere
 * but among the answers to be chosen from, and there as large as the others. A number stands nowhere at all.
 */

/** What was read, and what the record of it says would have been right. */
export type Reading = { feature: string; value: unknown; wanted: unknown };

/** The questions of the painter by eye that take a reading, and the features they read. */
const featureOf: Record<string, string> = {
	breathing: 'breathing',
	batch: 'batch',
	gauge: 'gauge',
	'pattern height': 'pattern-height',
	horns: 'horns',
	flooded: 'flooded',
	pattern: 'pattern',
	can: 'can',
	touch: 'touch',
	level: 'level',
};

/** What else a list asks: it neither instructs nor ends the list. */
const items = new Set([
	'supply',
	'extractor',
	'ignition',
	'earth',
	'skin',
	'fire',
	'help',
	'cans',
	'surface',
]);

export const isReading = ({ asked }: Asking): boolean => featureOf[asked] !== undefined;

/** Every reading of a day file that this looks after, in order. */
export function readingsOf(records: readonly DayRecord[]): Reading[] {
	const features = new Set(Object.values(featureOf));
	return records.flatMap((record): Reading[] => {
		if (record.type === 'batch.poured')
			return [{ feature: 'level', value: record.level_mL, wanted: record.wanted_mL }];
		if (record.type !== 'reading.taken' || !features.has(record.feature)) return [];
		return [{ feature: record.feature, value: record.value, wanted: record.wanted }];
	});
}

const unitOf = {
	gauge: ['pressure', 'psi'],
	'pattern-height': ['length', 'in'],
	level: ['volume', 'fl oz'],
} as const;

/** A reading as it would stand on a screen: words, or a number as it is typed. */
function shownAs({ feature }: Reading, value: unknown): { words: string[] } | { number: number } {
	const unit = unitOf[feature as keyof typeof unitOf];
	if (unit) return { number: Number(inUnit(Number(value), unit[0], unit[1]).toFixed(1)) };
	const all = Array.isArray(value) ? value : [value];
	return { words: all.map(one => String(one).replaceAll('-', ' ')) };
}

const escaped = (text: string) => text.replace(/[.+]/g, '\\$&');

/** A number by itself: no part of another one, of a time of day, of a count or of a time that runs. */
const alone = (number: number) =>
	new RegExp(
		`(?<![\\d.:]|coat |of )${escaped(String(number))}(?![\\d.:]| ?(?:s|min|h|days)\\b| strokes)`,
		'i',
	);

/** A batch letter is itself wherever letters are batches; other words are themselves in any case. */
const word = (feature: string, text: string) =>
	feature === 'batch'
		? new RegExp(`(?<![\\w+])${escaped(text).replace('\\+', ' ?\\+ ?')}(?![\\w+])`)
		: new RegExp(`\\b${escaped(text)}\\b`, 'i');

/** What the bytes would write, without where they write it. */
const plainText = (bytes: string): string =>
	bytes
		.split('\u001b')
		.map((piece, index) =>
			index === 0 ? piece : piece.replace(/^(?:\[[0-?]*[ -/]*[@-~]|[ -/]*[0-~])/, '\n'),
		)
		.join('');

/** Plain text without the answers themselves, which stand in their corners. */
const withoutAnswers = (text: string, { seen }: Asking): string =>
	Object.values(seen.corners).reduce((rest, answer) => rest.replaceAll(answer, ''), text);

/** Where the wait for this reading began: the first frame that belongs to it, and the first byte. */
function begins(askings: readonly Asking[], at: number): { asking: Asking; frame: number } {
	let first = at;
	const goesOn = (one: Asking | undefined) => one !== undefined && (isReading(one) || items.has(one.asked));
	while (goesOn(askings[first - 1])) first--;
	const asking = askings[first] as Asking;
	return { asking, frame: askings[first - 1]?.next ?? 0 };
}

/** What was to be seen of a reading's answer before it was keyed, if anything. */
export function betrayed(
	askings: readonly Asking[],
	at: number,
	reading: Reading,
	last: unknown,
	{ frames, bytes }: { frames: readonly Frame[]; bytes: string },
): string[] {
	const asking = askings[at];
	if (!asking) return ['there is no such question'];
	const start = begins(askings, at);
	const shownFrames = frames
		.slice(start.asking.first, asking.next + 1)
		.filter(({ from }) => from < asking.struckAt)
		.map(({ screen }) => look(screen).outside.join('\n'));
	const written = withoutAnswers(plainText(bytes.slice(frames[start.frame]?.from, asking.struckAt)), asking);
	const found: string[] = [];
	for (const value of new Set([reading.wanted, last].filter(one => one !== undefined && one !== null))) {
		const shown = shownAs(reading, value);
		const signs =
			'number' in shown ? [alone(shown.number)] : shown.words.map(text => word(reading.feature, text));
		for (const sign of signs) {
			const screen = shownFrames.find(text => sign.test(text));
			if (screen !== undefined) found.push(`${reading.feature} ${sign}: on the screen\n${screen}`);
			if (sign.test(written)) found.push(`${reading.feature} ${sign}: in the bytes\n${written}`);
		}
	}
	const sizes = new Set(Object.values(asking.seen.sizes));
	if (reading.feature !== 'level' && sizes.size > 1) found.push(`${reading.feature}: answers of unlike size`);
	return found;
}
