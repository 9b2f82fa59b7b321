import { readFileSync } from 'node:fs';
import { request } from 'node:https';
import { afterEach, expect, test } from 'vitest';
import { type Board, serveBoard } from '../../src/board/serve.ts';
import { shop, writtenDay } from './shop.ts';

/** On another address than a loopback: the token, its cookie, and TLS. This one is of this machine, and no loopback's name. */

const token = '0123456789abcdef0123456789abcdef';
let board: Board | null = null;
let now = 0;
afterEach(async () => {
	await board?.close();
	board = null;
});

async function served(more: Partial<Parameters<typeof serveBoard>[0]> = {}) {
	const place = shop();
	const day = writtenDay(place.days, 'small');
	now = day.now();
	board = await serveBoard({
		...{ host: '127.0.0.2', port: 0, token, tls: null, assets: { script: '', style: '' } },
		...{ days: place.days, record: place.record, now: () => now, said: () => {} },
		...more,
	});
	return board.url;
}

const enter = (url: string, given: string) =>
	fetch(`${url}enter`, {
		method: 'POST',
		headers: { origin: url.slice(0, -1), 'content-type': 'application/json' },
		body: JSON.stringify({ token: given }),
	});

const events = async (url: string, cookie: string) => {
	const stop = new AbortController();
	const { status, body } = await fetch(`${url}events`, { headers: { cookie }, signal: stop.signal });
	const text = status === 200 ? Buffer.from((await body?.getReader().read())?.value ?? []).toString() : '';
	stop.abort();
	return { status, text };
};

test('without the token nothing of a day is told; with it the browser keeps a cookie that no script reads', async () => {
	const url = await served();
	expect((await events(url, '')).status).toBe(401);
	expect((await events(url, `board=${token}`)).status).toBe(401);
	const answer = await enter(url, token);
	const cookie = answer.headers.get('set-cookie') ?? '';
	expect(cookie).toMatch(/; HttpOnly/);
	expect(cookie).toMatch(/; SameSite=Strict/);
	expect(cookie).not.toContain(token);
	const { status, text } = await events(url, cookie.split(';')[0] ?? '');
	expect(status).toBe(200);
	expect(text).toContain('"isPlain":true');
	const looked = await fetch(`${url}looked-in`, {
		method: 'POST',
		headers: { origin: url.slice(0, -1) },
		body: '{"day":"x","name":"Kim"}',
	});
	expect(looked.status).toBe(401);
});

test('ten wrong tokens in a minute, and then none is taken, the right one neither', async () => {
	const url = await served();
	for (let tries = 0; tries < 10; tries++) expect((await enter(url, `wrong ${tries}`)).status).toBe(403);
	expect((await enter(url, token)).status).toBe(429);
	now += 60_000;
	expect((await enter(url, token)).status).toBe(204);
});

test('by TLS the cookie is for TLS alone, and nothing says that it can be read on its way', async () => {
	const pem = (name: string) => readFileSync(`tests/board/fixtures/${name}.pem`, 'utf8');
	const url = await served({ tls: { cert: pem('cert'), key: pem('key') } });
	expect(url).toMatch(/^https:/);
	/** The first piece of an answer, and the cookie that came with it. */
	const asked = (path: string, method: string, headers: Record<string, string>, body = '') =>
		new Promise<{ text: string; cookie: string }>((done, fail) => {
			const options = { method, headers, ca: pem('cert'), servername: 'localhost' };
			const asking = request(`${url}${path}`, options, answer => {
				const cookie = answer.headers['set-cookie']?.[0] ?? '';
				const end = (text: string) => {
					done({ text, cookie });
					asking.destroy();
				};
				answer.once('data', piece => end(String(piece))).once('end', () => end(''));
			});
			asking.once('error', fail).end(body);
		});
	const { cookie } = await asked('enter', 'POST', { origin: url.slice(0, -1) }, JSON.stringify({ token }));
	expect(cookie).toMatch(/; Secure/);
	const { text } = await asked('events', 'GET', { cookie: cookie.split(';')[0] ?? '' });
	expect(text).toContain('"isPlain":false');
});
