import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { reportAs } from '../../src/report/report.ts';
import { loadFaults } from '../../src/trace/load-faults.ts';
import { cartDay } from '../report/cart-day.ts';
import { type Browser, findChromium, startChromium } from './chromium.ts';

/**
 * `npm run look`: the report of an invented day in a real browser, left in the folder `look` (or `LOOK=FOLDER`) as
 * pictures and as print, to be looked at with one's own eyes. What can be told without eyes is tested here.
 */

const widths = [360, 768, 1280];
const schemes = ['light', 'dark'];
const papers: [string, number, number][] = [
	['a4', 8.27, 11.69],
	['letter', 8.5, 11],
];

type Page = { browser: Browser; session: string };

async function openPage(browser: Browser, file: string): Promise<Page> {
	const { targetId } = await browser.send('Target.createTarget', { url: 'about:blank' });
	const { sessionId } = await browser.send('Target.attachToTarget', { targetId, flatten: true });
	const session = String(sessionId);
	for (const domain of ['Page', 'Network', 'Log', 'Runtime'])
		await browser.send(`${domain}.enable`, {}, session);
	await browser.send('Page.navigate', { url: pathToFileURL(file).href }, session);
	for (let waited = 0; waited < 100; waited++) {
		const { result } = await browser.send(
			'Runtime.evaluate',
			{ expression: "document.readyState === 'complete' && location.protocol === 'file:'" },
			session,
		);
		if ((result as { value?: unknown }).value === true) return { browser, session };
		await new Promise(done => setTimeout(done, 100));
	}
	throw new Error(`${file} was not opened`);
}

async function ask(page: Page, expression: string): Promise<unknown> {
	const given = await page.browser.send(
		'Runtime.evaluate',
		{ expression, returnByValue: true },
		page.session,
	);
	return (given.result as { value?: unknown }).value;
}

/** Elements that stick out of the screen at its width. */
const wide = `[...document.querySelectorAll('body *')].filter(one => !one.closest('thead') && one.getBoundingClientRect().right > document.documentElement.clientWidth + 1).slice(0, 5).map(one => one.tagName + ' ' + (one.getAttribute('class') ?? '') + ' ' + (one.textContent ?? '').slice(0, 40))`;

async function shoot(page: Page, folder: string, width: number, scheme: string): Promise<string[]> {
	const { browser, session } = page;
	const features = [{ name: 'prefers-color-scheme', value: scheme }];
	await browser.send('Emulation.setEmulatedMedia', { features }, session);
	const metrics = { width, height: 900, deviceScaleFactor: 1, mobile: width < 600 };
	await browser.send('Emulation.setDeviceMetricsOverride', metrics, session);
	const sticking: string[] = [];
	for (const open of [true, false]) {
		await ask(page, `for (const one of document.querySelectorAll('details')) one.open = ${open}`);
		sticking.push(...((await ask(page, wide)) as string[]));
	}
	const height = Number(await ask(page, 'document.documentElement.scrollHeight'));
	const piece = 2400;
	for (let from = 0; from < height; from += piece) {
		const clip = { x: 0, y: from, width, height: Math.min(piece, height - from), scale: 1 };
		const shot = await browser.send(
			'Page.captureScreenshot',
			{ format: 'png', clip, captureBeyondViewport: true },
			session,
		);
		const name = `${width}-${scheme}-${from / piece + 1}.png`;
		writeFileSync(join(folder, name), Buffer.from(String(shot.data), 'base64'));
	}
	return sticking;
}

async function print(page: Page, folder: string): Promise<void> {
	await page.browser.send('Emulation.clearDeviceMetricsOverride', {}, page.session);
	for (const [name, paperWidth, paperHeight] of papers) {
		const given = await page.browser.send(
			'Page.printToPDF',
			{ paperWidth, paperHeight, printBackground: false, preferCSSPageSize: false },
			page.session,
		);
		writeFileSync(join(folder, `${name}.pdf`), Buffer.from(String(given.data), 'base64'));
	}
}

const folder = resolve(process.env.LOOK ?? 'look');
let browser: Browser;
let page: Page;

beforeAll(async () => {
	mkdirSync(folder, { recursive: true });
	const day = await cartDay();
	const file = join(folder, 'day.html');
	writeFileSync(file, reportAs('html', { day, days: [day], faults: loadFaults(), sheet: 'coats' }));
	browser = startChromium(findChromium());
	page = await openPage(browser, file);
});
afterAll(() => browser?.close());

describe.each(widths)('at %d px', width => {
	test.each(schemes)('nothing sticks out of the screen, %s', async scheme => {
		expect(await shoot(page, folder, width, scheme)).toEqual([]);
	});
});

/** Letters of a picture that lie over others of it, as the browser has laid them out. */
const overlapping = `[...document.querySelectorAll('svg[role=img]')].flatMap(svg => {
	const texts = [...svg.querySelectorAll('text')].map(one => ({ says: one.textContent, box: one.getBoundingClientRect() }));
	const over = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 3;
	const title = svg.querySelector('title').textContent;
	return texts.flatMap((one, nth) => texts.slice(nth + 1).filter(other => over(one.box, other.box)).map(other => title + ': ' + one.says + ' over ' + other.says));
})`;

test.each([360, 768, 1280])('at %d px no letters of a picture lie over others', async width => {
	const metrics = { width, height: 900, deviceScaleFactor: 1, mobile: width < 600 };
	await browser.send('Emulation.setDeviceMetricsOverride', metrics, page.session);
	expect(Number(await ask(page, "document.querySelectorAll('svg[role=img] text').length"))).toBeGreaterThan(
		150,
	);
	expect(await ask(page, overlapping)).toEqual([]);
});

test('it prints on both sizes of paper', async () => {
	await print(page, folder);
});

/** Tables that a reader of the page on paper has before the eyes. */
const printed =
	"[...document.querySelectorAll('table')].filter(one => one.checkVisibility() && one.getBoundingClientRect().height > 0).length";

test('on paper the tables stand where the reader wants them, and nowhere else', async () => {
	const emulate = (media: string) =>
		page.browser.send('Emulation.setEmulatedMedia', { media, features: [] }, page.session);
	await emulate('print');
	const tables = Number(await ask(page, "document.querySelectorAll('table').length"));
	expect(tables).toBeGreaterThan(10);
	expect(await ask(page, printed)).toBe(0);
	await ask(page, "document.getElementById('print-tables').checked = true");
	expect(await ask(page, printed)).toBe(tables);
	await ask(page, "document.getElementById('print-tables').checked = false");
	await ask(page, "document.querySelector('details').open = true");
	expect(await ask(page, printed)).toBe(1);
	await ask(page, "document.querySelector('details').open = false");
	await emulate('');
});

test('every picture has a name and a description for who cannot see it', async () => {
	const { nodes } = await browser.send('Accessibility.getFullAXTree', {}, page.session);
	const images = (nodes as { role?: { value: string }; name?: { value: string } }[]).filter(
		({ role }) => role?.value === 'image' || role?.value === 'img',
	);
	expect(images.length).toBeGreaterThan(5);
	expect(images.filter(({ name }) => (name?.value ?? '').length < 20)).toEqual([]);
});

test('nothing is fetched, nothing runs, and the console stays silent', async () => {
	const heard = browser.reported();
	const requests = heard.filter(({ method }) => method === 'Network.requestWillBeSent');
	expect(requests).toHaveLength(1);
	expect(heard.filter(({ method }) => method === 'Log.entryAdded')).toEqual([]);
	expect(await ask(page, 'document.scripts.length')).toBe(0);
});
