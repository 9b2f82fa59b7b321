import { word } from '../again.ts';
import { neverCoated } from '../contradictions.ts';
import type { SheetError } from '../errors.ts';
import { type Loaded, parseJob } from '../load.ts';
import type { Shelf } from '../shelf.ts';
import { type Drafted, faceName, namesFor, type PartDrafted, type SprayDrafted } from './drafted.ts';
import { startLine } from './ending.ts';

/** The sheet that the answers make, as text, and what is wrong with it. */

const listed = (texts: readonly string[]): string => `[${texts.map(word).join(', ')}]`;

function partLines({ name, count, shape, held, faces }: PartDrafted): string[] {
	return [
		`  - part: ${word(name)}`,
		...(count === null ? [] : [`    count: ${count}`]),
		`    shape: ${/["#:]/.test(shape) ? JSON.stringify(shape) : shape} # ${faces.join(', ')}`,
		`    held: ${held}`,
	];
}

/** `sand 320 grit` as a key with its value. */
const stepKey = (step: string): string => {
	const [name = '', ...grit] = step.split(' ');
	return `${name}: ${grit.join(' ') || 'yes'}`;
};

function prepLines({ prep }: SprayDrafted, only: string): string[] {
	const isPlain = only === '' && prep.steps.every(step => !step.includes(' '));
	const steps = isPlain ? prep.steps.join(', ') : `{ ${prep.steps.map(stepKey).join(', ')}${only} }`;
	return [
		...(prep.wait === null ? [] : [`  - wait: ${prep.wait}`]),
		...(prep.steps.length === 0 ? [] : [`  - ${steps}`]),
	];
}

function sprayLines(spray: SprayDrafted, parts: readonly PartDrafted[], isOneGun: boolean): string[] {
	const all = parts.reduce((sum, { faces }) => sum + faces.length, 0);
	const only = spray.faces.length === all ? '' : `, only: ${listed(namesFor(spray.faces, parts))}`;
	const others = spray.own.map(({ face, coats }) => `${word(faceName(face))}: ${listed(coats)}`);
	const own = others.length === 0 ? '' : `, coats for: { ${others.join(', ')} }`;
	const coats = spray.coats.length === 1 ? spray.coats[0] : listed(spray.coats);
	const gun = isOneGun || spray.gun === null ? '' : `, gun: ${word(spray.gun)}`;
	return [
		...prepLines(spray, only),
		`  - { spray: ${word(spray.material)}${gun}, coats: ${coats}${own}${only} }`,
	];
}

/** Sprays whose gun is not asked yet first. */
const unasked = (one: string | null, other: string | null): number =>
	Number(one !== null) - Number(other !== null);
/** Stands in until a gun is asked for. */
const roomyGun = '{ pressure: 2 bar, fan: 25 cm, flow: 200 mL/min, cup: 200 L gravity }';

/** @param usual what nobody measured, in words */
export function sheetText(drafted: Drafted, usual: readonly string[] = []): string {
	const { name, parts, sprays, start } = drafted;
	const [gun = null, ...others] = new Set(sprays.map(spray => spray.gun).toSorted(unasked));
	const isOneGun = others.length === 0;
	const lines = [
		'# Materials, gun and shop stand on the shelf: fanwise shelf.',
		...usual.map(one => `# ${one}`),
		`name: ${word(name)}`,
		startLine(start),
		...(gun === null ? [`gun: ${roomyGun}`] : isOneGun ? [`gun: ${word(gun)}`] : []),
		'parts:',
		...parts.flatMap(partLines),
		'stages: # each spray with its preparation before it',
		...sprays.flatMap(spray => sprayLines(spray, parts, isOneGun)),
	];
	return `${lines.join('\n')}\n`;
}

/** The job of a draft, or what is wrong with it. */
export const loadedOf = (drafted: Drafted, shelf: Shelf): Loaded =>
	parseJob(sheetText(drafted), 'the sheet', () => shelf);

/** The first thing that is wrong with a draft, faces that no spray has reached yet apart; null: nothing. */
export function wrongSoFar(drafted: Drafted, shelf: Shelf): string | null {
	const loaded = loadedOf(drafted, shelf);
	const errors: SheetError[] = loaded.ok ? [] : loaded.errors;
	return errors.find(({ says }) => !says.includes(neverCoated))?.says ?? null;
}
