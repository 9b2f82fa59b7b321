import { expect, test } from 'vitest';
import { stamped } from '../../src/cli/inspect.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { daySentences } from '../../src/report/summary.ts';
import { beginInspection, hear } from '../../src/trace/inspect.ts';
import { trace } from '../../src/trace/trace.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { builtIn } from './built-in.ts';

const face = 'left door/flat';

/** The cap slips between the check and the first stroke; a visitor comes after the face; the check then finds it. */
function slipped() {
	const day = rehearsed();
	day.until(({ ask, face: at }) => ask === 'go' && at === face);
	const { horns } = day.painter.world;
	day.painter.world.horns = horns === 'level' ? 'upright' : 'level';
	day.until(({ ask }) => ask === 'spraying');
	day.until(({ ask }) => ask !== 'spraying');
	day.send('hold', 'wait 3 min');
	day.toEnd();
	return day;
}

test('a cap that slipped is traced to the stretch between the last good pattern and the one that differed', () => {
	const day = slipped();
	const records = day.records();
	const found = trace({ days: [records], fault: 'run', face, coat: 1 }, builtIn);
	expect(found.word).not.toBe('cannot tell');
	expect(found.candidates[0]).toMatchObject({ code: 'fan-along-stroke', told: true });
	const readings = day
		.ofType('reading.taken')
		.filter(({ feature }) => feature === 'pattern' || feature === 'horns');
	const wrong = readings.find(({ matched }) => !matched);
	const good = readings.findLast(({ matched, at }) => matched && at < (wrong?.at ?? ''));
	const [begun] = day.ofType('face.started').filter(one => one.face === face);
	expect(found.bracket.from <= (begun?.at ?? '')).toBe(true);
	expect(found.bracket.to >= (good?.at ?? '~')).toBe(true);
	expect(found.bracket.to < (wrong?.at ?? '')).toBe(true);
	expect(found.candidates[0]?.for.join()).toMatch(/read \w+, wanted/);
	expect(found.likely).toContainEqual({ face, coat: 1 });
	expect(found.likely.length).toBeLessThan(found.exposed.length);
});

test('a face cleared afterwards is known good, and drops out of what is not judged', () => {
	const records = slipped().records();
	const ask = { fault: 'run', face, coat: 1 };
	const last = records.at(-1);
	if (!last) throw new Error('no records');
	const before = trace({ days: [records], ...ask }, builtIn);
	const spot = before.inspect.find(one =>
		before.open.some(open => open.face === one.face && open.coat === one.coat),
	);
	if (!spot) throw new Error('nothing else exposed');
	const judged = { type: 'face.judged' as const, ...spot, verdict: 'cleared' as const, reason: 'looked at' };
	const more = [...records, ...stamped(last, [judged], 2, Date.parse(last.at) + 1000, 0)];
	const after = trace({ days: [more], ...ask }, builtIn);
	expect(before.open).toContainEqual(spot);
	expect(after.open).not.toContainEqual(spot);
	expect(before.isIsNot).toMatch(/^Nothing was found sound/);
	expect(after.isIsNot).toMatch(/^The one bad: .*\. Sound: .* \(1\)\.$/);
});

test('a played day that was inspected the next morning still passes the checker', () => {
	const day = slipped();
	const records = day.records();
	const last = records.at(-1);
	if (!last) throw new Error('no records');
	let inspection = beginInspection(records);
	let end = last;
	let bytes: Uint8Array = day.bytes();
	for (const line of [
		'fault run coat 1',
		'film dry 3 mil',
		'photo cart/7.jpg',
		'rework runs under the rail',
		'cleared',
	]) {
		const heard = hear(inspection, line, builtIn);
		expect(heard.accepted, heard.say).toBe(true);
		const added = stamped(end, heard.events, last.run + 1, Date.parse(last.at) + 36_000_000, 1000);
		bytes = Buffer.concat([bytes, encodeKey(added, end)]);
		end = added.at(-1) ?? end;
		inspection = heard.inspection;
	}
	expect(checkDayFile(bytes)).toEqual([]);
});

test('a played day is said in sentences of at most 12 words', () => {
	const said = daySentences(slipped().records());
	expect(said.filter(text => text.split(/\s+/u).length > 12)).toEqual([]);
	expect(said.join('\n')).toMatch(/^(Pattern|Horns): right door flat, \w+ for \w+\.$/m);
});

test('what was read after a break in the same instant was read after it, and clears the face sprayed then', () => {
	const day = rehearsed();
	day.until(({ ask, face: at }) => ask === 'go' && at === face);
	day.send('hold');
	day.toEnd();
	const found = trace({ days: [day.records()], fault: 'run', face, coat: 1 }, builtIn);
	const fan = found.candidates.find(({ code }) => code === 'fan-along-stroke');
	expect(fan?.reasons.join(' ')).not.toContain('a break');
});

test('what was read after the clock was set back was read after it', () => {
	const day = rehearsed();
	day.until(({ ask, face: at }) => ask === 'go' && at === face);
	day.send('clock -40 min');
	day.toEnd();
	const found = trace({ days: [day.records()], fault: 'run', face, coat: 1 }, builtIn);
	const fan = found.candidates.find(({ code }) => code === 'fan-along-stroke');
	expect(fan?.reasons.join(' ')).not.toContain('a break');
	expect(found.bracket.from <= found.bracket.to).toBe(true);
});

test('hardener read right after a break in mixing went in: a batch that stays soft is not one without hardener', () => {
	const day = rehearsed();
	const { state, do: wanted } = day.until(
		({ state, say }) => state === 'mix.pour' && say.startsWith('Hardener'),
	);
	expect(state).toBe('mix.pour');
	day.send('hold', 'wait 1 min');
	day.pick('back');
	day.send(`number ${wanted[0]?.to}`);
	day.toEnd();
	expect(day.ofType('batch.found')).toMatchObject([{ component: 'hardener', found: 'right' }]);
	const found = trace({ days: [day.records()], fault: 'stays-soft', face, coat: 1 }, builtIn);
	const none = found.candidates.find(({ code }) => code === 'no-hardener');
	expect(none?.told).toBe(false);
	expect(none?.against.join()).toMatch(/hardener read right/);
	expect(found.missing.join(' ')).not.toContain('no level was read');
});

test('a pass broken off in the instant in which it began is not a coat too many', () => {
	const day = rehearsed();
	day.until(({ state }) => state === 'spraying');
	day.send('hold');
	day.pick('back');
	day.pick('all');
	day.toEnd();
	const ask = { fault: 'run', face: 'left door/edges', coat: 1 };
	const found = trace({ days: [day.records()], ...ask }, builtIn);
	expect(found.candidates.find(({ code }) => code === 'too-many-coats')?.told).toBe(false);
});

test('a face pulled too short is not suspected of a heavy film because another was pulled too long', () => {
	const day = rehearsed();
	const sprayed = (wanted: string, time: string) => {
		day.until(line => line.state === 'spraying' && line.face === wanted);
		day.send('trigger on', time, 'trigger off');
		day.pick('finished');
		if (day.line().state === 'spraying.soon') day.pick('all');
	};
	sprayed('left door/edges', 'wait 20 s');
	sprayed(face, 'wait 110 s');
	day.toEnd();
	const found = trace({ days: [day.records()], fault: 'run', face, coat: 1 }, builtIn);
	const [first] = found.candidates;
	expect(first).toMatchObject({ code: 'film-too-heavy', told: true, extent: 'left door flat, coat 1 alone' });
	expect(first?.for[0]).toBe('the trigger was pulled 110 s for 60 s, not measured');
	expect(found.likely).toEqual([{ face, coat: 1 }]);
});

test('hardener read as right, yet far from its part, is told: what counts is how much of it went in', () => {
	const day = rehearsed();
	day.toEnd();
	const letter = day.ofType('face.started').find(one => one.face === face)?.cup[0];
	const records = day
		.records()
		.map(record =>
			record.type === 'batch.poured' && record.batch === letter && record.component === 'hardener'
				? { ...record, level_mL: (record.level_mL ?? 0) - 8 }
				: record,
		);
	const { candidates } = trace({ days: [records], fault: 'stays-soft', face, coat: 1 }, builtIn);
	expect(candidates[0]).toMatchObject({ code: 'wrong-ratio', told: true });
	expect(candidates[0]?.reasons.join(' ')).toMatch(/hardener was read as right, at 89% of its part/);
	const sound = trace({ days: [day.records()], fault: 'stays-soft', face, coat: 1 }, builtIn);
	expect(sound.word).not.toBe('told');
	expect(sound.candidates.find(({ code }) => code === 'wrong-ratio')?.told).toBe(false);
});

test('where this shop usually takes twice as long, pulls are held against the time of the sheet', () => {
	const day = rehearsed({ rates: { topcoat: { time: 2, paint: null } } });
	day.until(line => line.state === 'spraying' && line.face === face);
	day.send('trigger on', 'wait 60 s', 'trigger off', 'wait 19 s');
	expect(day.pick('finished').lines.join(' ')).not.toContain('Last face');
	day.toEnd();
	const { candidates } = trace({ days: [day.records()], fault: 'thin', face, coat: 1 }, builtIn);
	expect(candidates.find(({ code }) => code === 'film-too-light')?.told).toBe(false);
});
