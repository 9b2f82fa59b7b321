import { randomBytes } from 'node:crypto';

/**
 * What the pages are told, each piece the whole present of its subject: one that is lost is made good by the next, and of
 * two that wait for a slow page only the newer is sent.
 */
export type Hub = {
	/** Tells every page, unless it is what was told last of the subject. */
	tell(subject: string, what: object): void;
	/** A subject that is over: told to who may have it, and then forgotten. */
	end(subject: string, what: object): void;
	/**
	 * What a page is sent from now on.
	 * @param lastId of the last piece that it had, in its own words; unknown: it is sent everything
	 * @param cut ends its connection, where it does not read what it is sent
	 * @returns null: too many pages are open
	 */
	open(lastId: string | undefined, cut?: () => void): ReadableStream<Uint8Array> | null;
	pages(): number;
	close(): void;
};

/** Pages open at once, pieces kept that are over, and bytes that a page may leave unread. This project's own choices. */
export const mostPages = 32;
const mostKept = 1000;
export const mostBehind_bytes = 1_000_000;
/** A page that hears nothing for longer than this knows that it is cut off, ms. */
export const beat_ms = 10_000;

type Piece = { n: number; text: string; data: string; isOver: boolean };
type Page = {
	waiting: Map<string, string>;
	behind: number;
	wake: () => void;
	drop: (isCut: boolean) => void;
};

const encoder = new TextEncoder();
const wholeId = /^([0-9a-f]{16})\.(\d{1,15})$/;

/** @param first what a page is told whatever it had before */
export function openHub(first: (subjects: string[]) => object, now: () => number = Date.now): Hub {
	const epoch = randomBytes(8).toString('hex');
	const pieces = new Map<string, Piece>();
	const pages = new Set<Page>();
	let n = 0;
	/** No piece that is over was dropped since this one. */
	let whole = 0;

	const live = () => [...pieces].filter(([, { isOver }]) => !isOver).map(([subject]) => subject);

	const give = (page: Page, subject: string, text: string) => {
		page.behind += text.length;
		page.waiting.delete(subject);
		page.waiting.set(subject, text);
		if (page.behind > mostBehind_bytes) page.drop(true);
		else page.wake();
	};
	const put = (subject: string, what: object, isOver: boolean) => {
		const data = JSON.stringify(what);
		if (pieces.get(subject)?.data === data) return;
		n++;
		const text = `id: ${epoch}.${n}\ndata: ${data}\n\n`;
		pieces.delete(subject);
		pieces.set(subject, { n, text, data, isOver });
		const over = [...pieces].filter(([, piece]) => piece.isOver);
		for (const [key, piece] of over.slice(0, Math.max(0, over.length - mostKept))) {
			pieces.delete(key);
			whole = piece.n;
		}
		for (const page of pages) give(page, subject, text);
	};
	const missed = (lastId: string | undefined): [string, string][] => {
		const [, of, count] = wholeId.exec(lastId ?? '') ?? [];
		const since = of === epoch && Number(count) <= n && Number(count) >= whole ? Number(count) : 0;
		return [...pieces]
			.filter(([, piece]) => piece.n > since && !(since === 0 && piece.isOver))
			.map(([subject, { text }]) => [subject, text]);
	};
	const beat = setInterval(() => {
		for (const page of pages) give(page, 'beat', `event: beat\ndata: ${now()}\n\n`);
	}, beat_ms);
	beat.unref();

	return {
		tell: (subject, what) => put(subject, what, false),
		end: (subject, what) => put(subject, what, true),
		pages: () => pages.size,
		open(lastId, cut = () => {}) {
			if (pages.size >= mostPages) return null;
			const waiting = new Map([
				['first', `retry: 1000\ndata: ${JSON.stringify(first(live()))}\n\n`],
				['beat', `event: beat\ndata: ${now()}\n\n`],
				...missed(lastId),
			]);
			const page: Page = { waiting, behind: 0, wake: () => {}, drop: () => {} };
			pages.add(page);
			return new ReadableStream<Uint8Array>(
				{
					start(controller) {
						page.drop = isCut => {
							pages.delete(page);
							controller.close();
							page.wake();
							if (isCut) cut();
						};
					},
					async pull(controller) {
						page.behind = 0;
						if (page.waiting.size === 0)
							await new Promise<void>(wake => {
								page.wake = wake;
							});
						if (!pages.has(page)) return;
						const texts = [...page.waiting.values()].join('');
						page.waiting.clear();
						controller.enqueue(encoder.encode(texts));
					},
					cancel: () => void pages.delete(page),
				},
				{ highWaterMark: 0 },
			);
		},
		close() {
			clearInterval(beat);
			for (const page of [...pages]) page.drop(false);
		},
	};
}
