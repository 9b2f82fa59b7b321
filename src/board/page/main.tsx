import { render } from 'preact';
import type { Told } from '../shown.ts';
import { Board } from './board.tsx';
import { openCaller } from './caller.ts';
import { learn, nothingKnown } from './told.ts';

/** The page: told by the server, counting down by itself. */

const root = document.getElementById('board');
const known = nothingKnown(Date.now());
const caller = openCaller();

async function post(path: string, what: object): Promise<Response> {
	const headers = { 'Content-Type': 'application/json' };
	return fetch(path, { method: 'POST', headers, body: JSON.stringify(what) });
}

const lookIn = async (day: string, name: string): Promise<string> => {
	try {
		const answer = await post('/looked-in', { day, name });
		return answer.ok ? '' : await answer.text();
	} catch {
		return 'The board was not reached.';
	}
};

function show(): void {
	const isCalling = [...known.days.values()].some(({ calling }) => calling !== null);
	caller.call(isCalling);
	if (root) render(<Board {...{ known, now: Date.now(), isSounding: caller.isAwake(), lookIn }} />, root);
}

/** The token stands behind the # of the address: it is posted once, and the address has it no longer. */
async function enter(): Promise<void> {
	const token = location.hash.slice(1);
	if (token === '') return;
	history.replaceState(null, '', location.pathname);
	await post('/enter', { token });
}

function listen(): void {
	const source = new EventSource('/events');
	const heard = () => {
		known.heard = Date.now();
		known.isShut = false;
	};
	source.onmessage = ({ data }: MessageEvent<string>) => {
		heard();
		learn(known, JSON.parse(data) as Told);
		show();
	};
	source.addEventListener('beat', ({ data }: MessageEvent<string>) => {
		heard();
		known.ahead_ms = Number(data) - Date.now();
		show();
	});
	/** Cut, it comes again by itself; refused, it does not. */
	source.onerror = () => {
		if (source.readyState !== EventSource.CLOSED) return;
		known.isShut = true;
		setTimeout(listen, 5000);
		show();
	};
}

await enter().catch(() => {});
listen();
setInterval(show, 1000);
show();
