import { type GunCheck, gunCheckOf, patternFeatures, type Reading } from './checks.ts';
import type { Day } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { gunOf } from './guns.ts';
import { allOf } from './notes.ts';

/** Whether a value fits what was wanted; numbers within the share `tolerance`. */
export function fits(value: string | number, wanted: unknown, tolerance: number): boolean {
	if (Array.isArray(wanted)) return wanted.some(one => fits(value, one, tolerance));
	if (typeof wanted === 'number' && typeof value === 'number')
		return Math.abs(value - wanted) <= tolerance * Math.abs(wanted) + 1e-6;
	return value === wanted;
}

function attempts(readings: Reading[]): Finding[] {
	const findings: Finding[] = [];
	const last = new Map<string, Reading>();
	for (const reading of readings) {
		const before = last.get(reading.feature);
		const due = before && !before.matched ? before.attempt + 1 : 1;
		if (reading.attempt !== due)
			findings.push(finding(1, reading, `${reading.feature} is attempt ${reading.attempt}, due is ${due}`));
		last.set(reading.feature, reading);
	}
	const open = [...last.values()].filter(({ matched }) => !matched);
	return [
		...findings,
		...open.map(reading => finding(1, reading, `${reading.feature} differed and no fresh reading followed`)),
	];
}

function ownJudgement(day: Day, check: GunCheck, reading: Reading): string | null {
	const { feature, value, wanted } = reading;
	if (!reading.matched) return null;
	if (feature === 'batch') {
		const { cup } = check.checked;
		const read = new Set(String(value).match(/[A-Z]+/g));
		const same = read.size === cup.length && cup.every(letter => read.has(letter));
		return same ? null : `the batch read was ${value}, in the cup is ${cup.join(' ')}`;
	}
	const { pressure_kPa } = gunOf(day, check.checked);
	if (feature === 'gauge' && !fits(value, pressure_kPa, day.limits.readingTolerance + 0.01))
		return `the gauge read ${value} kPa, the sheet asks ${pressure_kPa}`;
	if (feature === 'breathing' || feature === 'card') return null;
	return fits(value, wanted, day.limits.readingTolerance)
		? null
		: `${feature} read ${value}, wanted was ${wanted}`;
}

function missing({ checked, readings, notes }: GunCheck): string[] {
	const read = (...features: string[]) =>
		readings.some(({ feature, matched }) => matched && features.includes(feature));
	const masked = allOf(notes, 'item.answered').some(
		({ check, item, passed }) => check === checked.check && item === 'mask' && passed,
	);
	return [
		...(read(...patternFeatures) ? [] : ['no fitting pattern was read']),
		...(read('batch') ? [] : ['no fitting batch letter was read']),
		...(checked.size === 'short' || masked || read('breathing') ? [] : ['the breathing gear was not read']),
	];
}

/**
 * A passed check rests on its readings (property 1): pattern, batch letter and, in a full one, breathing gear,
 * each the last of its attempts; one that differed is followed by a fresh one; the pattern comes last.
 */
export function readingsPass(day: Day): Finding[] {
	return allOf(day.notes, 'gun.checked').flatMap(checked => {
		const check = gunCheckOf(day, checked);
		if (!check) return [];
		const last = check.readings.at(-1);
		const wrong = check.readings.flatMap(reading => {
			const says = ownJudgement(day, check, reading);
			return says ? [finding(patternFeatures.includes(reading.feature) ? 2 : 1, reading, says)] : [];
		});
		const after =
			last && !patternFeatures.includes(last.feature) ? [`${last.feature} was read after the pattern`] : [];
		return [
			...[...missing(check), ...after].map(says =>
				finding(1, checked, `check ${checked.check} passes: ${says}`),
			),
			...attempts(check.readings),
			...wrong,
		];
	});
}
