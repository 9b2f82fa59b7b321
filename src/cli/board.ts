import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { dataFolder, makeDaysFolder } from '../day/file/folder.ts';
import { DayFileError, saySystemError } from '../day/file/trouble.ts';
import { checklistsFolder } from '../job/checklists-folder.ts';
import type { Args, Command, Io } from './command.ts';
import { folderOf } from './day-files.ts';
import { statusOf } from './status.ts';

const standardPort = 8090;

/** `HOST:PORT`, `HOST`, `:PORT`; null: it is none. */
function listenOf(text: string): { host: string; port: number } | null {
	const [, host = '', port = String(standardPort)] =
		/^(\[[0-9a-f:]+\]|[\w.-]*)(?::(\d{1,5}))?$/i.exec(text) ?? [];
	if (Number(port) > 65_535 || (host === '' && !text.startsWith(':'))) return null;
	return { host: host.replace(/^\[|\]$/g, '') || '127.0.0.1', port: Number(port) };
}

/** 128 bits at the least: 22 letters of 6 bits, or 32 of 4. */
const isLongToken = (text: string): boolean =>
	/^[0-9a-f]+$/i.test(text) ? text.length >= 32 : /^[\w+/=.~-]{22,}$/.test(text);

/** @throws RangeError what cannot be used, in words */
function textOf(path: unknown, what: string): string {
	try {
		return readFileSync(String(path), 'utf8').trim();
	} catch (error) {
		throw new RangeError(`${what}: ${saySystemError(error)}`);
	}
}

function whereOf({ listen, 'token-file': tokenFile, cert, key }: Args['options']) {
	const at = listenOf(listen === undefined ? '127.0.0.1' : String(listen));
	if (!at) throw new RangeError(`--listen "${String(listen).slice(0, 40)}" is no address: write HOST:PORT`);
	if ((cert === undefined) !== (key === undefined)) throw new RangeError('--cert and --key go together');
	const token = tokenFile === undefined ? null : textOf(tokenFile, '--token-file');
	if (token !== null && !isLongToken(token))
		throw new RangeError('--token-file: at least 128 bits wanted: 32 hexadecimal digits by chance, or more');
	const tls = cert === undefined ? null : { cert: textOf(cert, '--cert'), key: textOf(key, '--key') };
	return { ...at, token, tls };
}

/** Why an address cannot be had, by the system's code. */
const unserved: Readonly<Record<string, string>> = {
	EADDRINUSE: 'another program has that port: end it, or name another port',
	EADDRNOTAVAIL: 'this machine has no such address',
	EACCES: 'that port is not allowed: name one from 1024 on',
	ENOTFOUND: 'no machine of that name is known: write HOST:PORT',
};

async function run({ options }: Args, io: Io): Promise<number> {
	const say = (text: string) => void io.stderr.write(`fanwise board: ${text}\n`);
	try {
		const where = whereOf(options);
		const { builtAssets, isLoopback, serveBoard } = await import('../board/serve.ts');
		const isHere = isLoopback(where.host);
		if (!isHere && where.token === null)
			throw new RangeError("--listen: on another address than this machine's own it wants --token-file FILE");
		const { openSounder } = await import('../voice/sounder.ts');
		const sounder = options.sound ? openSounder(() => void io.stderr.write('\u0007'), io.env) : null;
		const board = await serveBoard({
			...where,
			days: makeDaysFolder(folderOf(io)),
			record: join(dataFolder(), 'board.jsonl'),
			assets: builtAssets(join(dirname(checklistsFolder()), 'dist')),
			said: say,
			...(sounder && { sound: () => sounder.play('held') }),
		});
		if (!isHere && !where.tls) say('without --cert and --key what it sends can be read on its way');
		io.stdout.write(`${board.url}${where.token === null ? '' : '#TOKEN'}\n`);
		await new Promise<void>(done => {
			for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => done());
		});
		await board.close();
		sounder?.close();
		return 0;
	} catch (error) {
		if (error instanceof RangeError) {
			say(error.message);
			return 2;
		}
		if (error instanceof DayFileError) {
			io.stderr.write(`${error.message}\n`);
			return statusOf(error);
		}
		if (!(error instanceof Error && 'code' in error && 'syscall' in error)) throw error;
		const why = unserved[String(error.code)] ?? `it cannot be served there (${error.code})`;
		say(`--listen: ${why}`);
		return 2;
	}
}

export const boardCommand: Command = {
	name: 'board',
	summary: 'a page of the open days to read from across the room, and a call where somebody should look in',
	usage: ['board [--listen HOST:PORT] [--token-file FILE] [--cert FILE --key FILE] [--sound]'],
	words: 0,
	options: {
		listen: {
			type: 'string',
			value: 'HOST:PORT',
			says: `where it is served; left out: 127.0.0.1:${standardPort}, this machine alone`,
		},
		'token-file': {
			type: 'string',
			value: 'FILE',
			says: 'opens the page with what this file holds, after the # of its address; wanted on other addresses',
		},
		cert: { type: 'string', value: 'FILE', says: 'serve by TLS with this certificate' },
		key: { type: 'string', value: 'FILE', says: 'and this key' },
		sound: { type: 'boolean', says: 'this machine calls aloud, too' },
	},
	examples: [
		'board',
		'board --sound',
		'board --listen 192.168.1.20:8090 --token-file token --cert cert.pem --key key.pem',
	],
	run,
};
