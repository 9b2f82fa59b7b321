import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Board, serveBoard } from '../../src/board/serve.ts';
import type { Told } from '../../src/board/shown.ts';
import { shop, writtenDay } from './shop.ts';

/** The board asked as a browser asks it, over a socket of this machine. */

const assets = { script: '/* script */', style: '/* style */' };
let place: ReturnType<typeof shop>;
let day: ReturnType<typeof writtenDay>;
let board: Board;
let now: number;

const serve = (more: Partial<Parameters<typeof serveBoard>[0]> = {}) =>
	serveBoard({
		...{ host: '127.0.0.1', port: 0, token: null, tls: null, assets },
		...{ days: place.days, record: place.record, now: () => now, said: () => {} },
		...more,
	});

beforeEach(async () => {
	place = shop();
	day = writtenDay(place.days, 'small');
	now = day.now();
	board = await serve();
});
afterEach(() => board.close());

/** One open page: what it is told, as it comes. */
async function openPage(lastId?: string, cookie?: string) {
	const stop = new AbortController();
	const headers = { ...(lastId && { 'last-event-id': lastId }), ...(cookie && { cookie }) };
	const answer = await fetch(`${board.url}events`, { headers, signal: stop.signal });
	const told: Told[] = [];
	let id = '';
	let rest = '';
	const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader();
	const until = async (wanted: (one: Told) => boolean): Promise<Told> => {
		for (;;) {
			const found = told.find(wanted);
			if (found) return found;
			const piece = await reader?.read();
			if (!piece || piece.done) throw new Error('it ended before');
			const events = (rest + piece.value).split('\n\n');
			rest = events.pop() ?? '';
			for (const event of events) {
				id = /^id: (.*)$/m.exec(event)?.[1] ?? id;
				const data = /^data: (\{.*)$/m.exec(event)?.[1];
				if (data) told.push(JSON.parse(data) as Told);
			}
		}
	};
	return { status: answer.status, told, until, id: () => id, close: () => stop.abort() };
}

const ofWord = (word: string) => (one: Told) => one.about === 'day' && one.shown.word === word;
const anyDay = (one: Told) => one.about === 'day';

/** A request as its bytes stand, which no client of good manners would send. */
const asBytes = (text: string): Promise<string> =>
	new Promise(done => {
		let heard = '';
		const socket = connect(Number(new URL(board.url).port), '127.0.0.1', () => socket.end(text));
		socket.on('data', piece => {
			heard += piece;
		});
		socket.on('error', () => done(heard));
		socket.on('close', () => done(heard));
	});

test('a key is on the page as soon as its line is in the file, and a page that comes back is told what it missed', async () => {
	const page = await openPage();
	await page.until(anyDay);
	await page.until(({ about }) => about === 'elsewhere');
	const seen = page.id();
	page.close();
	day.send('hold');
	day.write();
	const again = await openPage(seen);
	await again.until(ofWord('HOLD'));
	expect(again.told.map(({ about }) => about)).toEqual(['board', 'day']);
	again.close();
	const other = await openPage('0123456789abcdef.7');
	await other.until(({ about }) => about === 'elsewhere');
	expect(other.told.some(anyDay)).toBe(true);
	other.close();
});

test('the page has its headers, nothing of it is kept, and it holds no word of any day', async () => {
	const answer = await fetch(board.url);
	expect(answer.headers.get('content-security-policy')).toMatch(/^default-src 'none'; script-src 'self'/);
	expect(answer.headers.get('cache-control')).toBe('no-store');
	expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
	expect(answer.headers.get('referrer-policy')).toBe('no-referrer');
	expect(await answer.text()).not.toContain('cart');
	expect(await (await fetch(`${board.url}page.js`)).text()).toBe(assets.script);
});

test('another name, another origin, another way, a path upwards, a header of 1 MB: refused, and the day untouched', async () => {
	const before = readFileSync(day.path);
	const host = new URL(board.url).host;
	const status = async (text: string) => (await asBytes(text)).split(' ')[1];
	expect(await status('GET / HTTP/1.1\r\nHost: board.example\r\n\r\n')).toBe('421');
	expect(await status(`GET /../../etc/passwd HTTP/1.1\r\nHost: ${host}\r\n\r\n`)).toBe('404');
	expect(await status(`GET /%2e%2e/days HTTP/1.1\r\nHost: ${host}\r\n\r\n`)).toBe('404');
	expect(await status(`GET / HTTP/1.1\r\nHost: ${host}\r\nX-Long: ${'x'.repeat(1_000_000)}\r\n\r\n`)).toMatch(
		/431|^$/,
	);
	expect(await status(`DELETE /events HTTP/1.1\r\nHost: ${host}\r\n\r\n`)).toBe('405');
	const post = (headers: Record<string, string>, body = '{"day":"x","name":"Kim"}') =>
		fetch(`${board.url}looked-in`, { method: 'POST', headers, body });
	expect((await post({})).status).toBe(403);
	expect((await post({ origin: 'http://board.example' })).status).toBe(403);
	const own = { origin: board.url.slice(0, -1) };
	expect((await post(own)).status).toBe(409);
	expect((await post(own, 'x'.repeat(5000))).status).toBe(413);
	expect((await post(own, '{"day":"x","name":""}')).status).toBe(400);
	expect(readFileSync(day.path)).toEqual(before);
});

test('the 33rd page is refused, and has its place once another is closed', async () => {
	const pages = [];
	for (let nth = 0; nth < 32; nth++) pages.push(await openPage());
	expect((await openPage()).status).toBe(503);
	pages[0]?.close();
	let status = 503;
	for (let tries = 0; tries < 100 && status === 503; tries++) {
		await new Promise(done => setTimeout(done, 20));
		const page = await openPage();
		status = page.status;
	}
	expect(status).toBe(200);
	for (const page of pages) page.close();
});
