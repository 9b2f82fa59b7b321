import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Board, serveBoard } from '../../src/board/serve.ts';
import { page as pageBundle } from '../../src/package/bundle.js';
import { readingDistance_m } from '../../src/screen/reading-distance.ts';
import { shop, writtenDay } from '../board/shop.ts';
import { type Browser, findChromium, startChromium } from './chromium.ts';

/** `npm run look`: the board in a real browser, on a wall and on a phone, its pictures left in the folder `look`. */

const sizes = [
	{ name: 'wall', width: 1920, height: 1080, mobile: false },
	{ name: 'phone', width: 390, height: 844, mobile: true },
];
/** A screen of 1.1 m across, the least that the README names. */
const wall_mm = (1100 * 1080) / 1920;

const evil = '<img src=x onerror="window.got=1"><script>window.got=2</script>';
const folder = resolve(process.env.LOOK ?? 'look');
const place = shop();
let now = 0;
let board: Board;
let browser: Browser;
let session = '';
let day: ReturnType<typeof writtenDay>;
let port = 0;
let assets: { script: string; style: string };

const serve = () =>
	serveBoard({
		...{ host: '127.0.0.1', port, token: null, tls: null, assets },
		...{ days: place.days, record: place.record, now: () => now, said: () => {} },
	});

async function ask(expression: string): Promise<unknown> {
	const given = await browser.send(
		'Runtime.evaluate',
		{ expression, returnByValue: true, awaitPromise: true },
		session,
	);
	if (given.exceptionDetails) throw new Error(JSON.stringify(given.exceptionDetails));
	return (given.result as { value?: unknown }).value;
}

async function until(expression: string): Promise<void> {
	for (let tries = 0; tries < 150; tries++) {
		if ((await ask(expression)) === true) return;
		await new Promise(done => setTimeout(done, 100));
	}
	throw new Error(`never so: ${expression}; ${String(await ask('document.body.innerText'))}`);
}

const shows = (word: string) =>
	until(
		`[...document.querySelectorAll('.day .word')].some(one => one.getAttribute('aria-label') === '${word}')`,
	);

async function picture(name: string): Promise<void> {
	const shot = await browser.send('Page.captureScreenshot', { format: 'png' }, session);
	writeFileSync(join(folder, `${name}.png`), Buffer.from(String(shot.data), 'base64'));
}

async function sized({ width, height, mobile }: (typeof sizes)[number]): Promise<void> {
	const metrics = { width, height, deviceScaleFactor: 1, mobile };
	await browser.send('Emulation.setDeviceMetricsOverride', metrics, session);
}

/** A clock that runs on from where a day stands, as the page counts down by it. */
const from = (at: number) => {
	now = at;
};

beforeAll(async () => {
	mkdirSync(folder, { recursive: true });
	const { outputFiles } = await build({ ...pageBundle, write: false });
	const text = (end: string) => outputFiles.find(({ path }) => path.endsWith(end))?.text ?? '';
	assets = { script: text('page.js'), style: text('style.css') };
	day = writtenDay(place.days, 'small', { named: 'Coffee cart doors' });
	writtenDay(place.days, 'other', { named: evil });
	from(day.now());
	board = await serve();
	port = Number(new URL(board.url).port);
	browser = startChromium(findChromium());
	const { targetId } = await browser.send('Target.createTarget', { url: 'about:blank' });
	const { sessionId } = await browser.send('Target.attachToTarget', { targetId, flatten: true });
	session = String(sessionId);
	for (const domain of ['Page', 'Log', 'Runtime']) await browser.send(`${domain}.enable`, {}, session);
	await browser.send('Page.navigate', { url: board.url }, session);
	await until("document.querySelectorAll('.day').length === 2");
});
afterAll(async () => {
	await browser?.close();
	await board?.close();
});

test('every state of a day is seen as it is written, and pictures of it are taken at both sizes', async () => {
	for (const [state, word] of [
		['number', 'AIR'],
		['pattern', 'CHECK'],
		['go', 'READY'],
		['spraying', 'SPRAY'],
		['wait', 'WAIT'],
	] as const) {
		day.toAsk(state);
		from(day.now());
		day.write();
		await shows(word);
		for (const size of sizes) {
			await sized(size);
			await picture(`board-${size.name}-${word.toLowerCase()}`);
		}
	}
});

test('on the wall the words are read from six metres, and on the phone nothing sticks out', async () => {
	const [wall, phone] = sizes;
	if (!wall || !phone) throw new Error('no size');
	await sized(wall);
	const heights = await ask(
		"[...document.querySelectorAll('.letters')].map(one => one.getBoundingClientRect().height)",
	);
	for (const height_px of heights as number[])
		expect(readingDistance_m(wall_mm, 1080, height_px)).toBeGreaterThanOrEqual(6);
	expect(
		await ask(
			'document.documentElement.scrollHeight <= innerHeight && document.documentElement.scrollWidth <= innerWidth',
		),
	).toBe(true);
	await sized(phone);
	expect(
		await ask(
			"[...document.querySelectorAll('body *')].filter(one => one.getBoundingClientRect().right > innerWidth + 1).map(one => one.className)",
		),
	).toEqual([]);
});

test("a stranger's name does nothing: it stands there as it is written", async () => {
	expect(await ask('window.got')).toBeUndefined();
	expect(await ask("document.querySelectorAll('main img, main script').length")).toBe(0);
	expect(await ask(`document.body.textContent.includes(${JSON.stringify(evil)})`)).toBe(true);
	const heard = browser.reported().filter(({ method }) => method === 'Log.entryAdded');
	expect(heard.map(({ params }) => JSON.stringify(params))).toEqual([]);
});

test('cut off, it says so, and comes back with what was missed', async () => {
	await board.close();
	day.send('hold');
	from(day.now());
	day.write();
	await new Promise(done => setTimeout(done, 1500));
	board = await serve();
	await shows('HOLD');
});

test('it calls until a name is given there, and the axe finds nothing against it', async () => {
	from(day.now() + 31 * 60_000);
	await until("document.querySelector('.call') !== null");
	for (const size of sizes) {
		await sized(size);
		await picture(`board-${size.name}-look-in`);
		await ask(readFileSync('node_modules/axe-core/axe.min.js', 'utf8'));
		const found = await ask(
			"axe.run().then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html.slice(0, 120)).join(' | ')))",
		);
		expect(found).toEqual([]);
	}
	for (let calls = Number(await ask("document.querySelectorAll('.call').length")); calls > 0; calls--) {
		await ask(
			"document.querySelector('.call input').value = 'Kim'; document.querySelector('.call form').requestSubmit()",
		);
		await until(`document.querySelectorAll('.call').length === ${calls - 1}`);
	}
	expect(readFileSync(place.record, 'utf8').match(/"name":"Kim"/g)).toHaveLength(2);
});

test('twelve hours of events leave the page as large as it was', async () => {
	const count = () => ask("document.querySelectorAll('*').length");
	const before = await count();
	for (let hours = 0; hours < 12; hours++) {
		from(now + 3_600_000);
		await new Promise(done => setTimeout(done, 1100));
	}
	expect(Number(await count())).toBeLessThanOrEqual(Number(before) + 40);
});
