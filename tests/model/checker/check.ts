import { airWithin } from './air.ts';
import {
	lineKeptToItself,
	noMoreOnSound,
	reasonsKeyed,
	windowsMoveAlone,
	windowsSetAlone,
} from './beside.ts';
import { checkYoung, gunKnown, numbered, settled } from './checks.ts';
import { asTold, coatsAsked, counted } from './counts.ts';
import { cupSound } from './cup.ts';
import { type Day, dayOf } from './day.ts';
import { dustKeptOff } from './dust.ts';
import { agrees, type Earlier, earlierOf, workAgrees } from './earlier.ts';
import { checkAgrees, fanAcross } from './fan.ts';
import { type Finding, finding } from './finding.ts';
import { finishingDone } from './finishing.ts';
import { endedAfterBegun, inOrder, paired, sharesInTurn } from './form.ts';
import { gunsInHand } from './guns.ts';
import { noShortCut, reopenedInHold } from './holds.ts';
import { gunItemsClosed, listDone, suppliedAir } from './items.ts';
import { lettered } from './letters.ts';
import { readLines } from './lines.ts';
import { batchesLive } from './lives.ts';
import { facesMarked, overridesSound } from './marks.ts';
import { readNotes } from './notes.ts';
import { marksGive } from './offered.ts';
import { poursRight, reducerBySurface } from './parts.ts';
import { readingsPass } from './readings.ts';
import { silenceBreaks } from './silence.ts';
import { stepsInPlace } from './steps.ts';
import { checksTied, tied } from './ties.ts';
import { waited, windowsOpen } from './windows.ts';

type Rule = (day: Day) => Finding[];

const rules: Rule[] = [
	inOrder,
	paired,
	sharesInTurn,
	endedAfterBegun,
	numbered,
	gunKnown,
	gunsInHand,
	checkYoung,
	settled,
	readingsPass,
	fanAcross,
	checkAgrees,
	windowsOpen,
	waited,
	stepsInPlace,
	finishingDone,
	noShortCut,
	reopenedInHold,
	gunItemsClosed,
	listDone,
	suppliedAir,
	airWithin,
	overridesSound,
	facesMarked,
	cupSound,
	marksGive,
	poursRight,
	reducerBySurface,
	batchesLive,
	counted,
	coatsAsked,
	asTold,
	noMoreOnSound,
	lineKeptToItself,
	reasonsKeyed,
	windowsMoveAlone,
	windowsSetAlone,
	tied,
	checksTied,
	silenceBreaks,
	dustKeptOff,
];

/** What one rule finds; a day that a rule cannot read does not pass it. */
function applied(rule: Rule, day: Day): Finding[] {
	try {
		return rule(day);
	} catch (error) {
		return [
			finding(
				'form',
				{ line: 1 },
				`${rule.name || 'the comparison with earlier days'} cannot read this day: ${String(error)}`,
			),
		];
	}
}

/**
 * What a day file shows that the guard forbids, by the file alone: the properties 1–4, 6, 8, 11, 13–17, 19, 22 and
 * the shape of the file. A write that was never finished is left out.
 * @param bytes the day file
 * @param before earlier day files of the same job, oldest first, against which its opening is held
 * @returns nothing for a sound day; otherwise findings in the order of their lines
 */
export function checkDayFile(bytes: Uint8Array, before: Uint8Array[] = []): Finding[] {
	const { lines, findings: damage } = readLines(bytes);
	const { notes, findings: malformed } = readNotes(lines);
	const day = dayOf(notes);
	if (!day) return [...damage, ...malformed, finding('form', { line: 1 }, 'the file does not open a day')];
	const earlier: Earlier = earlierOf(before);
	const found = [
		...rules.flatMap(rule => applied(rule, day)),
		...applied(one => lettered(one, earlier.letters), day),
		...(before.length > 0 ? applied(one => [...agrees(one, earlier), ...workAgrees(one, earlier)], day) : []),
	];
	return [...damage, ...malformed, ...found].sort((a, b) => a.line - b.line);
}

/**
 * For tests that make a day file: passes when the checker finds nothing.
 * @throws Error that lists every finding
 */
export function expectSoundDay(bytes: Uint8Array, before: Uint8Array[] = []): void {
	const findings = checkDayFile(bytes, before);
	if (findings.length === 0) return;
	const said = findings.map(({ property, line, says }) => `  line ${line}, property ${property}: ${says}`);
	throw new Error(`the day file does not pass the checker:\n${said.join('\n')}`);
}
