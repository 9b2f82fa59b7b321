import { expect, test } from 'vitest';
import { checkDayFile } from '../model/checker/check.ts';
import { leave, stoolDay, stools, workSince } from './stools.ts';

/** What is sanded is wiped and tacked again before its coat, whoever asked for the sanding. */

const underside = 'seat 1/underside';

/** Left after the tack coat of the topcoat, and gone on with when its recoat window says sand. */
async function sandedByWindow(change?: (text: string) => string) {
	const given = await stools(change);
	const first = stoolDay(given, 0);
	first.toEnd();
	const second = stoolDay(given, 1, first.records());
	second.until(line => line.state === 'wait' && second.ofType('face.ended').length > 0);
	leave(second);
	const third = stoolDay(given, 2, second.records());
	third.until(line => line.state === 'spraying' && line.face === underside);
	const did = workSince(third).filter(one => one.endsWith(underside));
	third.toEnd();
	const earlier = [first.bytes(), second.bytes()];
	return { did: did.map(one => one.split(' ')[0]), findings: checkDayFile(third.bytes(), earlier) };
}

test('sanded because its window says so, a face is wiped and tacked as the sheet does it', async () => {
	const { did, findings } = await sandedByWindow();
	expect(did).toEqual(['sand', 'wipe', 'tack']);
	expect(findings).toEqual([]);
});

test('where the sheet names neither, it is wiped', async () => {
	const { did, findings } = await sandedByWindow(text => text.replaceAll('  - wipe\n  - tack\n', ''));
	expect(did).toEqual(['sand', 'wipe']);
	expect(findings).toEqual([]);
});

test('its wiping may be left out with a reason, which marks the coat', async () => {
	const given = await stools();
	const first = stoolDay(given, 0);
	first.toEnd();
	const second = stoolDay(given, 1, first.records());
	second.until(line => line.state === 'wait' && second.ofType('face.ended').length > 0);
	leave(second);
	const third = stoolDay(given, 2, second.records());
	third.toState('prep.wipe');
	for (const code of ['skip', 'owner']) third.pick(code);
	third.until(line => line.state === 'spraying' && line.face === underside);
	expect(third.ofType('face.started').at(-1)?.overrides).toContain('prep');
	expect(workSince(third).filter(one => one.endsWith(underside))).toEqual([
		`sand ${underside}`,
		`tack ${underside}`,
	]);
	third.toEnd();
	expect(checkDayFile(third.bytes(), [first.bytes(), second.bytes()])).toEqual([]);
});

test('sanded by its window before the list is through, it is wiped and tacked once, behind the sanding', async () => {
	const given = await stools(text =>
		text
			.replace('  - sand: 320 grit\n', '')
			.replace('wait: 0 to 12 h, sand: from 12 h', 'wait: 0 to 12 h, spray: 12 h to 24 h, sand: from 24 h'),
	);
	const first = stoolDay(given, 0);
	first.toEnd();
	const second = stoolDay(given, 2, first.records());
	second.until(line => line.state === 'spraying' && line.face === underside);
	expect(workSince(second).filter(one => one.endsWith(underside))).toEqual([
		`turn over ${underside}`,
		`sand ${underside}`,
		`wipe ${underside}`,
		`tack ${underside}`,
	]);
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a night between the sanding and the wiping forgets nothing', async () => {
	const given = await stools();
	const first = stoolDay(given, 0);
	first.toEnd();
	const second = stoolDay(given, 1, first.records());
	second.until(line => line.state === 'wait' && second.ofType('face.ended').length > 0);
	leave(second);
	const third = stoolDay(given, 2, second.records());
	third.toState('prep.wipe');
	leave(third);
	const fourth = stoolDay(given, 3, third.records());
	fourth.until(line => line.state === 'spraying' && line.face === underside);
	const did = workSince(fourth).filter(one => one.endsWith(underside));
	expect(did).toEqual([`wipe ${underside}`, `tack ${underside}`]);
	fourth.toEnd();
	expect(checkDayFile(fourth.bytes(), [first.bytes(), second.bytes(), third.bytes()])).toEqual([]);
});

test('a part with a repaired face is sanded on all its faces before any of them is wiped, and wiped before one is tacked', async () => {
	const top = 'seat 2/top';
	const given = await stools();
	const first = stoolDay(given, 0);
	first.until(line => line.state === 'ready' && first.ofType('face.ended').some(({ face }) => face === top));
	for (const code of ['trouble', 'wet-fault', 'run', top, 'set-part-aside']) first.pick(code);
	first.toEnd();
	const second = stoolDay(given, 1, first.records());
	second.until(({ state }) => state === 'rework.clean');
	const words = second.line().say;
	second.until(line => line.state === 'spraying' && line.face === top);
	const ofPart = workSince(second).filter(one => one.includes('seat 2'));
	const kinds = (face: string) => ofPart.filter(one => one.endsWith(face)).map(one => one.split(' ')[0]);
	expect(kinds(top).slice(-2)).toEqual(['wipe', 'tack']);
	expect(kinds('edges')).toContain('sand');
	const last = (kind: string) => ofPart.findLastIndex(one => one.startsWith(kind));
	expect(last('sand')).toBeLessThan(ofPart.indexOf(`wipe ${top}`));
	expect(last('wipe')).toBeLessThan(ofPart.indexOf(`tack ${top}`));
	expect(words).not.toMatch(/tack/);
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('what is sanded on the other side is wiped before the first is sprayed, and again once it is turned up', async () => {
	const given = await stools();
	const first = stoolDay(given, 0);
	first.toEnd();
	expect(workSince(first).filter(one => one.endsWith('seat 1/top'))).toEqual([
		'turn over seat 1/top',
		'wipe seat 1/top',
		'tack seat 1/top',
	]);
	const second = stoolDay(given, 1, first.records());
	second.toState('spraying');
	const ids = given.job.faces.map(({ id }) => id);
	for (const step of ['sand', 'wipe'])
		expect(
			workSince(second)
				.filter(one => one.startsWith(step))
				.toSorted(),
		).toEqual(ids.map(id => `${step} ${id}`).toSorted());
	second.toEnd();
	expect(workSince(second).filter(one => one.endsWith('seat 1/top'))).toEqual(
		['sand', 'wipe', 'turn over', 'wipe', 'tack'].map(step => `${step} seat 1/top`),
	);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});
