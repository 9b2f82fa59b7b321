import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

/** The borders of the house: which room may look into which. */

type Import = { from: string; to: string; type: boolean };

const sources = (folder: string): string[] =>
	readdirSync(folder, { recursive: true, encoding: 'utf8' })
		.filter(name => /\.tsx?$/.test(name))
		.map(name => path.posix.join(folder, name.replaceAll(path.sep, '/')));

const files = ['src', 'machines'].flatMap(sources);
const textOf = new Map(files.map(file => [file, readFileSync(file, 'utf8')]));

function importsOf(file: string, text: string): Import[] {
	const said = text.matchAll(
		/^(?:import|export)(\s+type)?\b[^;'"`]*?from\s+'([^']+)'|^import\s+'([^']+)'|\bimport\('([^']+)'\)/gm,
	);
	return [...said].map(([, type, from, bare, lazy]) => {
		const name = from ?? bare ?? lazy ?? '';
		const to = name.startsWith('.') ? path.posix.join(path.posix.dirname(file), name) : name;
		return { from: file, to, type: type !== undefined };
	});
}

const imports = [...textOf].flatMap(([file, text]) => importsOf(file, text));
const roomOf = (file: string) => {
	const [top = '', room = ''] = file.split('/');
	return top === 'src' ? room : top;
};
const isOwn = ({ to }: Import) => to.startsWith('src/') || to.startsWith('machines/');

/** Rooms that a room takes values from. Types of the records, the job and the state go everywhere. */
const leaves = ['trade', 'film', 'records', 'job', 'words'];
const mayTakeFrom: Record<string, readonly string[]> = {
	machines: [],
	trade: [],
	film: ['trade'],
	job: ['trade', 'film'],
	records: ['trade', 'film'],
	words: ['trade', 'film', 'records', 'job'],
	plan: leaves,
	trace: leaves,
	day: [...leaves, 'plan', 'machines'],
	settings: [...leaves, 'day'],
	'by-date': [...leaves, 'day'],
	painter: [...leaves, 'day'],
	trigger: [...leaves, 'day'],
	voice: [...leaves, 'day'],
	screen: [...leaves, 'day'],
	report: [...leaves, 'day', 'plan', 'trace'],
	plain: [...leaves, 'day', 'screen', 'voice'],
	board: [...leaves, 'day', 'screen', 'voice', 'report'],
	/** What the build makes of the commands: the manual page, completion, licences. */
	package: [...leaves, 'cli'],
	cli: [
		...leaves,
		'day',
		'plan',
		'trace',
		'painter',
		'settings',
		'by-date',
		'trigger',
		'voice',
		'screen',
		'report',
		'plain',
		'board',
	],
};

test('arrows point one way: every room takes only from rooms below it', () => {
	const wrong = imports
		.filter(one => isOwn(one) && !one.type && roomOf(one.from) !== roomOf(one.to))
		.filter(({ from, to }) => !mayTakeFrom[roomOf(from)]?.includes(roomOf(to)));
	expect(wrong.map(({ from, to }) => `${from} takes from ${to}`)).toEqual([]);
	expect([...new Set(files.map(roomOf))].sort()).toEqual(Object.keys(mayTakeFrom).sort());
});

test('no room above another is named in the one below, not even by type, but for the records and the state of a day', () => {
	const types = imports.filter(one => isOwn(one) && one.type && roomOf(one.from) !== roomOf(one.to));
	const wrong = types.filter(({ from, to }) => {
		const below = mayTakeFrom[roomOf(from)] ?? [];
		return !below.includes(roomOf(to)) && !['day', 'job'].includes(roomOf(to));
	});
	expect(wrong.map(({ from, to }) => `${from} names ${to}`)).toEqual([]);
	expect(types.length).toBeGreaterThan(0);
});

test('the charts and the trade take nothing with effects', () => {
	const packages = (room: string) =>
		new Set(imports.filter(one => !isOwn(one) && roomOf(one.from) === room).map(({ to }) => to));
	expect(packages('machines')).toEqual(new Set(['xstate']));
	expect(packages('trade')).toEqual(new Set(['convert']));
	expect(packages('film')).toEqual(new Set());
	const effects =
		/\b(?:Date\.now|new Date\(\)|Math\.random|performance\.|process\.|setTimeout|setInterval|fetch\(|globalThis)/;
	const wrong = files
		.filter(file => ['machines', 'trade', 'film'].includes(roomOf(file)))
		.filter(file => effects.test(textOf.get(file) ?? ''));
	expect(wrong).toEqual([]);
});

test('of the day the charts know the types of the records, and of the job its types', () => {
	const seen = imports.filter(
		one => isOwn(one) && roomOf(one.from) === 'machines' && roomOf(one.to) !== 'machines',
	);
	for (const { to, type } of seen) {
		expect(['src/day/records.ts', 'src/job/job.ts']).toContain(to);
		expect(type).toBe(true);
	}
	expect(seen.length).toBeGreaterThan(0);
});

test('nothing writes to the console, and nothing is exported without a name', () => {
	const wrong = files.filter(file => /\bconsole\.|^export default\b/m.test(textOf.get(file) ?? ''));
	expect(wrong).toEqual([]);
});

test('no file leads back to itself, not even by a type', () => {
	const ahead = new Map<string, string[]>();
	for (const one of imports.filter(isOwn)) ahead.set(one.from, [...(ahead.get(one.from) ?? []), one.to]);
	const done = new Set<string>();
	const circles: string[] = [];
	const follow = (file: string, way: readonly string[]) => {
		if (way.includes(file)) {
			circles.push([...way.slice(way.indexOf(file)), file].join(' → '));
			return;
		}
		if (done.has(file)) return;
		for (const next of ahead.get(file) ?? []) follow(next, [...way, file]);
		done.add(file);
	};
	for (const file of files) follow(file, []);
	expect(circles).toEqual([]);
});

test('the second bookkeeping of the model takes from the charts their types alone', () => {
	for (const name of ['shadow', 'sprayed-face', 'mixed-batch', 'properties']) {
		const file = `tests/model/${name}.ts`;
		const values = importsOf(file, readFileSync(file, 'utf8')).filter(({ type }) => !type);
		expect(values.filter(({ to }) => !to.startsWith('tests/model/'))).toEqual([]);
	}
});
