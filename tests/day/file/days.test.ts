import { appendFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { dayInTheWay, daysOfJob, loadDay } from '../../../src/day/file/days.ts';
import { newDayPath } from '../../../src/day/file/folder.ts';
import { salvageDay } from '../../../src/day/file/salvage.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { type DayEvent, eventSchema } from '../../../src/day/records.ts';
import { newPlace } from './place.ts';
import { first, following, opened, stamped } from './sample.ts';

const job = 'canopy rail';
const closed: DayEvent = { type: 'day.closed', job, why: 'done' };

const dayOf = (folder: string, date: string, ends: 'open' | 'closed', fields: object = {}) => {
	const event = eventSchema.parse({ ...opened, ...fields });
	const path = newDayPath(folder, { job, date });
	const day = createDay(path, stamped(event, 1));
	if (ends === 'closed') day.append([stamped(closed, 2)]);
	day.close();
	return path;
};
const inTheWay = (folder: string) => dayInTheWay(daysOfJob(folder, job));
const spoil = (path: string, at: number) => {
	const bytes = readFileSync(path);
	bytes[at] = 0;
	writeFileSync(path, bytes);
};

test('the open day of a job is its newest that was not closed', () => {
	const folder = newPlace();
	expect(inTheWay(folder)).toBeNull();
	const old = dayOf(folder, '2027-03-01', 'open');
	dayOf(folder, '2027-03-02', 'closed');
	expect(inTheWay(folder)).toBe(old);
	const recent = dayOf(folder, '2027-03-03', 'open');
	expect(inTheWay(folder)).toBe(recent);
});

test('a day of another job with a name alike, and one on a moved clock, are not taken for it', () => {
	const folder = newPlace();
	dayOf(folder, '2027-03-01', 'open', { job: 'Canopy: rail!' });
	dayOf(folder, '2027-03-01', 'open', { clock: 'moved' });
	expect(inTheWay(folder)).toBeNull();
	const second = dayOf(folder, '2027-03-01', 'open');
	expect(second).toMatch(/_canopy-rail-3\.day\.jsonl$/);
	expect(inTheWay(folder)).toBe(second);
	expect([...daysOfJob(folder, job)].map(({ path }) => path)).toEqual([second]);
});

test('a closed day stays closed when something was added to it afterwards', () => {
	const folder = newPlace();
	const path = dayOf(folder, '2027-03-01', 'closed');
	const day = openDay(path);
	day.append([stamped({ type: 'fault.seen', fault: 'run', face: 'canopy rail/top', coat: 1 }, 3, 2)]);
	day.close();
	expect(inTheWay(folder)).toBeNull();
});

test('a damaged day is not passed over in silence while it is the newest of its job', () => {
	for (const at of [2, -5]) {
		const folder = newPlace();
		const path = dayOf(folder, '2027-03-01', 'closed');
		spoil(path, at < 0 ? readFileSync(path).length + at : at);
		expect(inTheWay(folder)).toBe(path);
		expect(() => openDay(path)).toThrow(/damaged/);
		dayOf(folder, '2027-03-02', 'closed');
		expect(inTheWay(folder)).toBeNull();
	}
});

test('a closed day damaged behind its end, or empty, closes the way to the next, and how to settle it is said', () => {
	const folder = newPlace();
	const path = dayOf(folder, '2027-03-01', 'closed');
	const day = openDay(path);
	day.append([stamped({ type: 'fault.seen', fault: 'run', face: 'canopy rail/top', coat: 1 }, 3, 2)]);
	day.close();
	const older = dayOf(folder, '2027-02-28', 'closed');
	spoil(path, readFileSync(path).length - 5);
	expect(inTheWay(folder)).toBe(path);
	const beside = path.replace('.day.jsonl', '-2.day.jsonl');
	expect(() => openDay(path)).toThrow(
		`${path}:3: the day file is damaged: its checksum does not fit; ` +
			`save what is whole with \`fanwise log ${path} --salvage ${beside}\`, then move ${path} to another folder`,
	);
	salvageDay(path, beside);
	rmSync(path);
	expect(inTheWay(folder)).toBeNull();
	expect([...daysOfJob(folder, job)].map(one => one.path)).toEqual([beside, older]);
	writeFileSync(beside, '');
	expect(inTheWay(folder)).toBe(beside);
	expect(() => openDay(beside)).toThrow(
		`${beside}: nothing is in this day file: put a copy of it in its place, ` +
			'or move it to another folder: the coats of that day are then not counted',
	);
});

test('days follow each other by what was laid, whatever a clock or a name says', () => {
	const folder = newPlace();
	const coat = (ended: string) => ({ coat: 1, ended, cup: ['A'], surfaceC: 20 });
	const faces = (...ended: string[]) => ({
		'canopy rail/top': { coats: ended.map(coat), prep: [], aside: null },
	});
	const ahead = '2027-12-02T09:00:00.000Z';
	const right = '2027-03-03T09:00:00.000Z';
	const laid = (ended: string): DayEvent => ({
		...{ type: 'face.ended', face: 'canopy rail/top', coat: 1, extent: 'all', lastStroke: null },
		...{ estimated: true, ended },
	});
	const wroteAt = (date: string, before: object, ends: DayEvent[]) => {
		const event = eventSchema.parse({ ...opened, before });
		const path = newDayPath(folder, { job, date });
		const day = createDay(path, { ...stamped(event, 1), at: `${date}T08:00:00.000Z` });
		day.append(
			[...ends, closed].map((one, at) => ({ ...stamped(one, 2 + at), at: `${date}T12:00:00.000Z` })),
		);
		day.close();
		return path;
	};
	const first = wroteAt('2027-12-02', { faces: {}, letters: 0 }, [laid(ahead)]);
	const idle = wroteAt('2028-01-01', { faces: faces(ahead), letters: 1 }, []);
	const second = wroteAt('2027-03-03', { faces: faces(ahead), letters: 1 }, [laid(right)]);
	const third = wroteAt('2027-03-02', { faces: faces(ahead, right), letters: 2 }, []);
	const bare = wroteAt('2029-01-01', { faces: {}, letters: 0 }, []);
	const paths = () => daysOfJob(folder, job).map(({ path }) => path);
	expect(paths()).toEqual([third, second, idle, first, bare]);
	// A file of which nothing can be read counts by its name: the newest day is not passed over, an older one is.
	const lost = newDayPath(folder, { job, date: '2027-03-01' });
	writeFileSync(lost, '');
	expect(paths()).toEqual([third, second, idle, first, bare, lost]);
	expect(inTheWay(folder)).toBeNull();
	const newer = newDayPath(folder, { job, date: '2027-03-03' });
	writeFileSync(newer, '');
	expect(inTheWay(folder)).toBe(newer);
});

test('a day is read while another program has it open, and its torn tail is left where it is', () => {
	const folder = newPlace();
	const path = newDayPath(folder, { job, date: '2027-03-01' });
	const day = createDay(path, first);
	day.append(following(2, 2));
	appendFileSync(path, 'torn');
	const before = readFileSync(path);
	expect(loadDay(path).map(({ seq }) => seq)).toEqual([1, 2, 3]);
	expect(readFileSync(path)).toEqual(before);
	expect(() => loadDay(folder)).toThrow(/no file/);
	day.close();
});
