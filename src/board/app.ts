import { createHash, timingSafeEqual } from 'node:crypto';
import type { HttpBindings } from '@hono/node-server';
import { Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { getCookie, setCookie } from 'hono/cookie';
import type { Hub } from './hub.ts';

/** What the board answers: one page and its two files, what the page is told, and the name of who looked in. */

export type Assets = { script: string; style: string };

export type Access = {
	/** On this machine alone; the name that it was asked by must then be one of this machine. */
	isLoopback: boolean;
	/** At least 128 bits; null: everybody on this machine may look. */
	token: string | null;
	isSecure: boolean;
};

type Given = {
	assets: Assets;
	hub: Hub;
	access: Access;
	/** Keeps who looked in; false: nobody was called for. */
	lookedIn(day: string, name: string): boolean;
	now(): number;
};

const page = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<title>fanwise board</title><link rel="stylesheet" href="/style.css"><script type="module" src="/page.js"></script></head>
<body><div id="board"></div></body></html>
`;

const headers: Record<string, string> = {
	'Content-Security-Policy':
		"default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
	'X-Content-Type-Options': 'nosniff',
	'Referrer-Policy': 'no-referrer',
	'Cache-Control': 'no-store',
};

const loopbackName = /^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d{1,5})?$/i;

/** Wrong tokens in a minute, and then none is taken. This project's own choice. */
const mostWrong = 10;
const longestName = 60;
const cookieAge_s = 30 * 86_400;
const cookieName = 'board';

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
const same = (one: string, other: string): boolean => timingSafeEqual(digest(one), digest(other));
/** What a browser keeps in place of the token: whoever reads it there has not the token. */
const cookieOf = (token: string): string => digest(`board cookie ${token}`).toString('hex');

const fieldsOf = async (request: { json(): Promise<unknown> }): Promise<Record<string, unknown>> => {
	const read = await request.json().catch(() => null);
	return typeof read === 'object' && read !== null ? { ...read } : {};
};

export function boardApp({ assets, hub, access, lookedIn, now }: Given): Hono<{ Bindings: HttpBindings }> {
	const { token, isLoopback, isSecure } = access;
	const cookie = token === null ? null : cookieOf(token);
	let wrong: number[] = [];
	const app = new Hono<{ Bindings: HttpBindings }>();

	app.use(async (context, next) => {
		await next();
		for (const [name, value] of Object.entries(headers)) context.res.headers.set(name, value);
	});
	app.use(async ({ req, text }, next) => {
		const host = req.header('host') ?? '';
		if (isLoopback && !loopbackName.test(host)) return text('not by that name', 421);
		if (req.method !== 'GET' && req.method !== 'POST') return text('only to be read', 405);
		const origin = `${isSecure ? 'https' : 'http'}://${host}`;
		if (req.method === 'POST' && req.header('origin') !== origin) return text('not from there', 403);
		return next();
	});
	app.get('/', ({ html }) => html(page));
	app.get('/favicon.ico', ({ body }) => body(null, 204));
	app.get('/page.js', ({ body }) => body(assets.script, 200, { 'Content-Type': 'text/javascript' }));
	app.get('/style.css', ({ body }) => body(assets.style, 200, { 'Content-Type': 'text/css' }));

	app.use(bodyLimit({ maxSize: 4096 }));
	app.post('/enter', async context => {
		const at = now();
		wrong = wrong.filter(was => at - was < 60_000);
		if (token === null || cookie === null) return context.body(null, 204);
		if (wrong.length >= mostWrong) return context.text('too many wrong tokens: wait a minute', 429);
		const given = (await fieldsOf(context.req)).token;
		if (typeof given !== 'string' || !same(given, token)) {
			wrong.push(at);
			return context.text('not the token', 403);
		}
		setCookie(context, cookieName, cookie, {
			...{ httpOnly: true, sameSite: 'Strict', secure: isSecure, path: '/', maxAge: cookieAge_s },
		});
		return context.body(null, 204);
	});
	/** What lies behind is for who has entered. */
	app.use(async (context, next) => {
		if (cookie !== null && !same(getCookie(context, cookieName) ?? '', cookie))
			return context.text('open the board with its token', 401);
		return next();
	});
	app.get('/events', context => {
		const stream = hub.open(context.req.header('last-event-id'), () => context.env.outgoing.destroy());
		if (!stream) return context.text('too many pages are open', 503);
		return context.body(stream, 200, { 'Content-Type': 'text/event-stream' });
	});
	app.post('/looked-in', async context => {
		const { day, name } = await fieldsOf(context.req);
		const who = typeof name === 'string' ? name.trim() : '';
		if (typeof day !== 'string' || who === '' || who.length > longestName)
			return context.text(`a name of 1 to ${longestName} letters`, 400);
		try {
			return lookedIn(day, who) ? context.body(null, 204) : context.text('nobody was called for', 409);
		} catch {
			return context.text('the name was not kept: the disk does not take it', 500);
		}
	});
	return app;
}
