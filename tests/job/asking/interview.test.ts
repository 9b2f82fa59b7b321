import { describe, expect, test } from 'vitest';
import { adding } from '../../../src/job/asking/adding.ts';
import { namedParts } from '../../../src/job/asking/part-questions.ts';
import { linesOf, questionsOf } from '../../../src/job/data-sheet.ts';
import { parseJob } from '../../../src/job/load.ts';
import { readShelf, type Shelf } from '../../../src/job/shelf.ts';
import { planJob } from '../../../src/plan/job-plan.ts';
import { shelf as folder } from '../chairs/long-form.ts';
import { answered, chairs, inOrder, written } from './answered.ts';
import { fromEmpty, minutesOf } from './from-empty.ts';

const shelf = readShelf(folder);
const jobOf = (text: string, on: Shelf = shelf) => {
	const loaded = parseJob(text, 'new.yaml', () => on);
	if (!loaded.ok) throw new Error(loaded.errors.map(({ line, says }) => `${line} ${says}`).join('\n'));
	return loaded.job;
};
const changed = (from: string, to: string): Shelf => {
	expect(shelf.files.some(({ text }) => text.includes(from))).toBe(true);
	return { ...shelf, files: shelf.files.map(file => ({ ...file, text: file.text.replace(from, to) })) };
};

test('eight chairs with a filled shelf: 25 questions, a sheet of at most 35 lines, the coats as they were asked for', () => {
	const { outcome, put } = answered(shelf, inOrder(chairs));
	const { text, lacking } = written(outcome);
	expect(put.filter(({ wrong }) => wrong !== null)).toEqual([]);
	expect(put.length).toBeLessThanOrEqual(25);
	expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(35);
	expect(lacking).toEqual([]);
	expect(put.at(-1)?.shown).toEqual(['begins 2027-03-02 08:00', 'gun: feather usual, not measured']);
	const coats = new Map(
		jobOf(text).faces.map(({ id, coats: its }) => [
			id,
			its.map(({ material, kind }) => `${material} ${kind}`),
		]),
	);
	const primed = ['grey epoxy full', 'grey epoxy full'];
	const green = ['moss green satin tack', 'moss green satin full'];
	expect(coats.get('frame 8/tubes')).toEqual([...primed, ...green]);
	expect(coats.get('seat 8/edges')).toEqual([...primed, ...green]);
	expect(coats.get('seat 8/top')).toEqual([...primed, ...green, 'moss green satin full']);
});

/** Of each the answers and the minutes of typing at 30 words a minute. */
test.each([
	['eight chairs', 85, 9.1],
	['six kitchen doors', 84, 9.1],
	['round parts', 81, 8.7],
	['a single panel', 77, 8.3],
] as const)(
	'%s from an empty shelf, two guns among them: %i answers, none of them refused',
	(job, count, minutes) => {
		const answers = fromEmpty[job];
		const { outcome, put } = answered({ ...shelf, files: [] }, inOrder(answers));
		expect(put.filter(({ wrong }) => wrong !== null)).toEqual([]);
		const { text, lacking } = written(outcome);
		expect([answers.length, Number(minutesOf(answers).toFixed(1))]).toEqual([count, minutes]);
		expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(35);
		expect(lacking.filter(({ kind }) => kind === 'gun')).toHaveLength(2);
		const made = jobOf(text, { ...shelf, files: lacking });
		expect(Object.keys(made.guns ?? {})).toEqual(['large', 'small']);
	},
);

test('another colour of a paint has its data sheet, but for its name; recoat windows over itself are its own', () => {
	const begin = ['One pole', 'pole', 'spindle', '200 x 4 cm', 'hanging', '', 'NEW'];
	const end = ['full', 'large', '', 'as offered', '-', 'WRITE'];
	const { outcome, put } = answered(shelf, inOrder([...begin, 'slate satin like moss green satin', ...end]));
	expect(put.filter(({ wrong }) => wrong !== null)).toEqual([]);
	const { lacking } = written(outcome);
	const green = shelf.files.find(({ name }) => name === 'moss green satin')?.text;
	expect(lacking.map(({ text }) => text)).toEqual([green?.replaceAll('moss green', 'slate')]);
	const wrongs = answered(
		shelf,
		inOrder([...begin, 'grey epoxy like moss green satin', 'a/b like grey epoxy']),
		10,
	);
	expect(wrongs.put.slice(8).map(({ wrong }) => wrong)).toEqual([
		'grey epoxy is on the shelf already',
		expect.stringContaining('no "/"'),
	]);
});

test('the gun that was measured with a material is offered, else the last one; each stage names its own', () => {
	const small =
		'gun: small\ncup: 600 mL gravity\nset-ups: [{ for: moss green satin, pressure: 2 bar, fan: 20 cm at 15 cm, paint: 100 mL in 30 s }]\n';
	const two = {
		...shelf,
		files: [...shelf.files, { kind: 'gun' as const, name: 'small', path: 'small.yaml', text: small }],
	};
	const { outcome, put } = answered(two, inOrder(chairs));
	expect(put.filter(({ question }) => question === 'gun').map(({ offered }) => offered)).toEqual([
		undefined,
		'small',
	]);
	const guns = jobOf(written(outcome).text, two).stages.flatMap(one =>
		one.kind === 'coats' ? [one.gun] : [],
	);
	expect(guns).toEqual(['large', 'large', 'small', 'small']);
	const again = answered(shelf, inOrder(chairs));
	expect(again.put.filter(({ question }) => question === 'gun').map(({ offered }) => offered)).toEqual([
		'large',
		'large',
	]);
	expect(written(again.outcome).text).toContain('\ngun: large\n');
});

test('a night ends when the shop opens, and the first day begins then', () => {
	const early = changed('day: 9 h', 'day: 07:30 - 17:30');
	const { outcome, put } = answered(early, inOrder(chairs));
	expect(put.find(({ question }) => question === 'start')?.offered).toBe('2027-03-02 07:30');
	const job = jobOf(written(outcome).text, early);
	expect(job.shop.hours).toBe(600);
	expect(job.stages.filter(({ kind }) => kind === 'wait')).toEqual(
		Array(2).fill({ kind: 'wait', name: 'overnight', hours: 10, until_min: 450 }),
	);
});

test.each([
	['8 frames', 'frame', 8],
	['8 x frames', 'frames', 8],
	['2 boxes', 'box', 2],
	['3 shelves', 'shelf', 3],
	['4 trays', 'tray', 4],
	['2 seat backs', 'seat back', 2],
	['2 glass', 'glass', 2],
	['1 trousers press', 'trousers press', 1],
	['lens', 'lens', null],
])('%s: each of them is called %s', (answer, name, count) => {
	expect(namedParts(answer, [])).toEqual({ is: { name, count } });
});

test.each([
	['2:1 by volume', 'reducer'],
	['4:1:1 by volume', 'order'],
	['4:1:1 reducer by volume', 'order'],
	['4:1:1 accelerator by volume', 'reducer'],
	['8:2:2:1 accelerator by volume', 'order'],
	['-', 'reducer'],
])('behind a ratio of %s comes %s: a reducer is asked for once', (ratio, next) => {
	const asking = adding('material', 'material: any');
	asking.next();
	const { value } = asking.next(ratio);
	expect(value).toMatchObject({ question: next, wrong: null });
});

test('the rest another day is not sprayed in the round of the first faces', () => {
	const { text } = written(answered(shelf, inOrder(chairs)).outcome);
	expect(text.split('\n').filter(line => line.includes('wait: overnight'))).toHaveLength(2);
	const [edges] = jobOf(text).faces.filter(({ id }) => id === 'seat 1/edges');
	const [tubes] = jobOf(text).faces.filter(({ id }) => id === 'frame 1/tubes');
	expect(edges?.coats[2]?.stage).toBeGreaterThan(tubes?.coats[3]?.stage ?? Number.NaN);
});

describe('what is never taken for granted', () => {
	test('no line of a data sheet is offered, and none that a material must have may be left out', () => {
		const asked = answered(
			{ ...shelf, files: [] },
			inOrder([...chairs.slice(0, 10), 'ours', 'metric', '20 °C', '50%', '9 h', 'NEW', 'linen satin']),
			60,
		).put.slice(17);
		expect(asked[0]).toMatchObject({ question: 'ratio', wrong: null });
		expect(asked.every(({ question, offered }) => question === 'ratio' && offered === undefined)).toBe(true);
		const may = questionsOf.material.filter(one => one.may).map(({ key }) => key);
		const usual = ['wet edge', 'wet the tip', 'flush'];
		expect(may).toEqual(['order', 'strainer', 'recoat', 'sand after', 'dry to', 'grit', ...usual]);
	});

	/** The questions and the sheet of one more material, on a job of one part that is held so; its answers behind the name. */
	const epoxy = shelf.files.find(({ name }) => name === 'grey epoxy')?.text ?? '';
	const lineOf = (key: string) => new RegExp(`^${key}: (.*)$`, 'm').exec(epoxy)?.[1] ?? '';
	const asksOf = (held: string, handle = '') => {
		const begin = ['One seat', 'seat', 'panel', '40 x 38 x 3 cm', held, '', 'NEW', 'grey lacquer'];
		const given: Record<string, string> = { 'dry to': handle, flash: '30 min to 8 h at 20 °C', recoat: '' };
		const put: string[] = [];
		answered(
			shelf,
			({ question }) => {
				put.push(question);
				return begin[put.length - 1] ?? given[question] ?? lineOf(question);
			},
			30,
		);
		return put;
	};

	test('dry to handle is asked where parts lie on points and are turned over, and nowhere else', () => {
		expect(asksOf('on points')).toContain('dry to');
		expect(asksOf('hanging')).toContain('grit');
		expect(asksOf('hanging')).not.toContain('dry to');
	});

	test('a time dry to handle, or several, stands in the file as its data sheet has it', () => {
		const question = questionsOf.material.find(({ key }) => key === 'dry to');
		if (!question) throw new Error('nothing asks for it');
		expect(linesOf('material', question, '4 h at 20 °C')).toEqual({
			lines: 'dry to: { handle: 4 h at 20 °C }',
		});
		expect(linesOf('material', question, '8 h at 15 °C, 4 h at 20 °C')).toEqual({
			lines: 'dry to: { handle: [8 h at 15 °C, 4 h at 20 °C] }',
		});
	});

	test('without recoat windows a material does not go over the other, whatever is answered', () => {
		const windows = /\n {2}- over: grey epoxy\n {4}surface: 12 to 30 °C\n.*$/m.exec(
			shelf.files.find(({ name }) => name === 'moss green satin')?.text ?? '',
		)?.[0];
		const without = changed(windows ?? 'no windows', '');
		const { put } = answered(without, inOrder([...chairs.slice(0, 15), 'all', 'frame', '']), 20);
		expect(put.slice(16, 19).map(({ question, wrong }) => `${question}: ${wrong}`)).toEqual(
			Array(3).fill(
				'faces: no recoat window of moss green satin over grey epoxy is open then; add it to the shelf',
			),
		);
	});
});

describe('preparation follows the recoat windows', () => {
	const offered = (on: Shelf) =>
		answered(on, inOrder([...chairs.slice(0, 15), 'all', 'tack, full', '', '', '', '']), 21).put.at(-1);
	const windows = 'windows: [wait: 0 to 4 h, spray: 4 h to 8 h, sand: from 8 h]';
	const over = (to: string) => offered(changed(windows, `windows: [${to}]`))?.shown?.[1];

	test.each([
		['wait: 0 to 4 h, spray: 4 h to 8 h, sand: from 8 h', 'overnight, sand 320 grit, wipe, tack'],
		['wait: 0 to 4 h, spray: 4 h to 8 h, scuff: from 8 h', 'overnight, scuff, wipe, tack'],
		['wait: 0 to 4 h, spray: 4 h to 72 h', 'overnight, wipe, tack'],
		['wait: 0 to 4 h, spray: 4 h to 72 h, sand: from 72 h', 'overnight, wipe, tack'],
		['wait: 0 to 4 h, spray: 4 h to 30 h, sand: from 30 h', 'overnight, sand 320 grit, wipe, tack'],
		['wait: 0 to 40 h, sand: from 40 h', 'overnight, sand 320 grit, wipe, tack'],
		['wait: 0 to 4 h, spray: 4 h to 8 h, scuff: 8 h to 20 h', 'none'],
	])('%s: %s', (row, says) => {
		expect(over(row)).toBe(`before moss green satin: ${says}`);
	});
});

test('what is bare yet waits for another day when it is asked to, and is then made ready as the first was', () => {
	const frames = [...chairs.slice(0, 10), 'grey epoxy', 'frame', '2 full', 'large', '', 'yes', ''];
	const { put } = answered(shelf, inOrder(frames), frames.length + 1);
	expect(put.at(-1)?.shown).toEqual([
		'before grey epoxy: degrease, scuff, wipe, tack',
		'before grey epoxy: overnight, degrease, scuff, wipe, tack',
	]);
});

test('the rest another day is done on the day after the first faces, not once their own first night is over', () => {
	const job = jobOf(written(answered(shelf, inOrder(chairs)).outcome).text);
	const top = job.faces.find(({ id }) => id === 'seat 1/top');
	expect(top?.coats.map(({ wait_h }) => wait_h)).toEqual([0, 0, 9 + 24, 0, 0]);
	const { stages } = planJob({ job, start: Date.parse('2027-03-02T08:00:00Z') });
	const dayOf = (name: string, nth: number) =>
		stages
			.filter(stage => stage.name.startsWith(name))
			.map(({ faces }) => Math.floor((faces[0]?.planned_s ?? Number.NaN) / 86_400))
			.at(nth);
	expect([dayOf('spray moss', 0), dayOf('turn over', -1), dayOf('spray moss', 1)]).toEqual([1, 2, 2]);
});

test('a shop without hours waits so long as a night usually is', () => {
	const { text } = written(answered(changed('day: 9 h\n', ''), inOrder(chairs)).outcome);
	expect(text).toContain('  - wait: 16 h\n');
	expect(text).not.toContain('overnight');
});

test('what cannot be used is asked again and says why; nothing of it comes into the sheet', () => {
	const wrongs = [
		['', 'a name is wanted'],
		['Eight garden chairs', null],
		['8 x', 'say what it is'],
		['0 x frame', 'allowed: 1 to 1000'],
		['8 x frame/top', 'no "/"'],
		['8 x frame', null],
		['pipe', 'allowed: panel'],
		['tube frame', null],
		['20 mm', '2 sizes are wanted'],
		['20 mm tube, 8 m', null],
		['lying', 'nearest: on points'],
		['hanging', null],
		['8 x Frame', 'too much like frame'],
		['frame tubes', 'too much like frame'],
		['', null],
		['moss', 'nearest: moss green satin'],
		['1', null],
		['tack', 'no film is given for it; found "tack"; allowed: full'],
		['21 full', 'allowed:'],
		['full', null],
	] as const;
	const { put } = answered(shelf, inOrder(wrongs.map(([answer]) => answer)), wrongs.length + 1);
	for (const [nth, [answer, wrong]] of wrongs.entries()) {
		const after = put[nth + 1]?.wrong;
		if (wrong === null) expect([answer, after]).toEqual([answer, null]);
		else expect([answer, after]).toEqual([answer, expect.stringContaining(wrong)]);
	}
});
