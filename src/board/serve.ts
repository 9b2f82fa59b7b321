import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { join } from 'node:path';
import { createAdaptorServer } from '@hono/node-server';
import { disk, type FilePort } from '../day/file/port.ts';
import { type Access, type Assets, boardApp } from './app.ts';
import { openCalls } from './calls.ts';
import { followDays } from './days.ts';
import { openHub } from './hub.ts';

export type Where = {
	host: string;
	/** 0: any that is free. */
	port: number;
	token: string | null;
	/** Certificate and key as PEM; null: what is sent can be read on its way. */
	tls: { cert: string; key: string } | null;
};

export type Board = { url: string; close(): Promise<void> };

type Given = Where & {
	/** Where the days lie, and where the board keeps who looked in. */
	days: string;
	record: string;
	assets: Assets;
	files?: FilePort;
	now?: () => number;
	said(text: string): void;
	/** Sounds the call on this machine; left out: the pages alone do. */
	sound?: () => void;
};

/** The page's script and style, as they were built. */
export const builtAssets = (dist: string): Assets => ({
	script: readFileSync(join(dist, 'board', 'page.js'), 'utf8'),
	style: readFileSync(join(dist, 'board', 'style.css'), 'utf8'),
});

export const isLoopback = (host: string): boolean => ['127.0.0.1', '::1', 'localhost'].includes(host);

/** Sockets at once: pages, and what else asks beside them. */
const mostSockets = 128;
const soundEvery_ms = 3000;

/**
 * Serves the board until it is closed.
 * @throws the system's error where the address cannot be had
 */
export async function serveBoard(given: Given): Promise<Board> {
	const { host, port, token, tls, said, now = Date.now } = given;
	const access: Access = { isLoopback: isLoopback(host), token, isSecure: tls !== null };
	const isPlain = !access.isLoopback && !access.isSecure;
	const hub = openHub(subjects => ({ about: 'board', days: subjects, isPlain }), now);
	const unkept = () => said(`${given.record}: not written: a board started anew does not know of this call`);
	const calls = openCalls(given.record, unkept);
	const days = followDays({ folder: given.days, port: given.files ?? disk, hub, calls, now });
	const lookedIn = (day: string, name: string) => {
		const was = calls.lookedIn(day, name, now());
		days.look();
		return was;
	};
	const { fetch: answer } = boardApp({ assets: given.assets, hub, access, lookedIn, now });
	const server = createAdaptorServer({
		fetch: answer,
		...(tls ? { createServer: createSecureServer, serverOptions: tls } : { createServer }),
	});
	if ('maxConnections' in server) server.maxConnections = mostSockets;
	try {
		await new Promise<void>((done, fail) => {
			server.once('error', fail);
			server.listen(port, host, done);
		});
	} catch (error) {
		days.close();
		hub.close();
		throw error;
	}
	const sounding = setInterval(() => {
		if (days.isCalling()) given.sound?.();
	}, soundEvery_ms);
	const bound = server.address();
	const at = typeof bound === 'object' && bound ? bound.port : port;
	const name = host.includes(':') ? `[${host}]` : host;
	return {
		url: `${tls ? 'https' : 'http'}://${name}:${at}/`,
		close: () => {
			clearInterval(sounding);
			days.close();
			hub.close();
			return new Promise(done => {
				server.close(() => done());
				if ('closeAllConnections' in server) server.closeAllConnections();
			});
		},
	};
}
