import type { Corner } from '../../src/day/view.ts';
import { noticeTexts } from '../../src/screen/notices.ts';
import type { Deed, EyePainter } from './by-eye.ts';
import { look, type Seen } from './eyes.ts';
import type { Pty } from './pty.ts';

/** Plays a day at a real terminal: what is on its screen is all that the painter goes by, keys are all that is done. */

const keyOf: Record<Corner, string> = { topLeft: 'e', topRight: 'i', bottomLeft: 'x', bottomRight: ',' };
const [up, right] = ['\u001b[A', '\u001b[C'];

/** Something that comes between, once. Words are struck one after the other, on as many pages as it takes. */
export type Happening = {
	when(asked: string, seen: Seen): boolean;
	tell: string;
	change?(painter: EyePainter): void;
	deeds: readonly Deed[];
};

/** A question that was answered: what stood on the screen, what was done, and between which frames it stood. */
export type Asking = {
	asked: string;
	seen: Seen;
	deed: Deed;
	/** The first frame of it, and the first one after the answer. */
	first: number;
	next: number;
	/** How many bytes had been written when its key was struck, and how many records. */
	struckAt: number;
	records: number;
};

export type PlayedDay = { askings: Asking[]; told: string[]; keys: number };

export type Play = {
	terminal: Pty;
	painter: EyePainter;
	happenings: readonly Happening[];
	/** Looks at a question before it is answered. */
	before?(asked: string): void;
	/** No question of this name is answered any more. */
	until?: string;
	/** How many records the day file has. */
	records?(): number;
};

/** Whether anything was recorded between the key of a question and the next key: a key that was dropped is struck again. */
export const isAcknowledged = (askings: readonly Asking[], at: number): boolean =>
	(askings[at + 1]?.records ?? Number.POSITIVE_INFINITY) > (askings[at]?.records ?? 0);

/** Longer than a new screen stays deaf. */
const lookFirst_ms = 540;
/** A question that has not changed by then was not answered: a key dropped by a busy machine is struck again. */
const patience_ms = 1500;

const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

const notices = Object.values(noticeTexts);

/** The same question whatever is counted in it, and whatever is said of a key that did not count. */
const questionOf = ({ text, corners }: Seen): string => {
	const asked = notices.reduce((rest, notice) => rest.replace(notice, ''), text);
	return JSON.stringify([asked.replace(/\d+/g, '#').trim(), corners]);
};

/** Looks until two looks see the same. */
async function steady(terminal: Pty): Promise<Seen> {
	let screen = '';
	for (let looks = 0; looks < 500; looks++) {
		const now = terminal.screen();
		if (now === screen && now.trim() !== '') return look(now);
		screen = now;
		await pause(25);
	}
	throw new Error(`the screen does not come to rest:\n${screen}`);
}

function bytesOf(deed: Exclude<Deed, { watch_s: number }>, { corners }: Seen): string {
	if ('hold' in deed) return ' ';
	if ('type' in deed) return `${deed.type}\r`;
	if ('clock_min' in deed)
		return up.repeat(Math.floor(deed.clock_min / 10)) + right.repeat(deed.clock_min % 10);
	if ('leave' in deed) return keyOf.topLeft;
	const at = Object.entries(corners).find(([, text]) => text === deed.strike)?.[0] as Corner | undefined;
	if (!at) throw new Error(`${deed.strike} is in no corner: ${JSON.stringify(corners)}`);
	return keyOf[at];
}

const turnsPage = (deed: Deed, { corners }: Seen): boolean => {
	const texts = Object.values(corners);
	return 'strike' in deed && !texts.includes(deed.strike) && texts.includes('MORE');
};

/** Plays until the day is left; every question that was answered, in order. */
export async function playAtTerminal({
	terminal,
	painter,
	happenings,
	before,
	until,
	records = () => 0,
}: Play): Promise<PlayedDay> {
	const askings: Asking[] = [];
	const told: string[] = [];
	const left = [...happenings];
	const queue: Deed[] = [];
	let keys = 0;
	let unread = 0;

	const happen = (asked: string, seen: Seen) => {
		const at = left.findIndex(one => one.when(asked, seen));
		const [now] = at < 0 ? [] : left.splice(at, 1);
		if (!now) return;
		told.push(now.tell);
		now.change?.(painter);
		queue.push(...now.deeds);
	};
	/** Until another question stands there, or nothing has come of the key. */
	const answered = async (question: string): Promise<boolean> => {
		let looked = '';
		for (const end = Date.now() + patience_ms; Date.now() < end; await pause(25)) {
			const now = terminal.screen();
			if (now !== looked && questionOf(look(now)) !== question) return true;
			looked = now;
		}
		return false;
	};

	for (let count = 0; count < 2000; count++) {
		const seen = await steady(terminal);
		const first = terminal.frames.length - 1;
		const own = painter.reply(seen);
		// Half a screen, drawn by a busy machine: it is looked at again.
		if (!own && unread++ < 20) {
			await pause(150);
			continue;
		}
		if (!own) throw new Error(`a screen that says nothing to do:\n${terminal.screen()}`);
		unread = 0;
		if (own.asked === until) return { askings, told, keys };
		if (queue.length === 0) happen(own.asked, seen);
		before?.(own.asked);
		const planned = queue[0] ?? own.deed;
		if (!planned) throw new Error(`nothing is known to do about ${own.asked}:\n${terminal.screen()}`);
		const deed: Deed = turnsPage(planned, seen) ? { strike: 'MORE' } : planned;
		if ('strike' in deed || 'type' in deed || 'leave' in deed) await pause(lookFirst_ms);
		if ('strike' in deed && deed.after_s) await pause(deed.after_s * 1000);
		if ('watch_s' in deed) {
			await pause(deed.watch_s * 1000);
			continue;
		}
		const question = questionOf(seen);
		if (questionOf(look(terminal.screen())) !== question) continue;
		const struck = { struckAt: terminal.bytes().length, records: records() };
		const bytes = bytesOf(deed, seen);
		keys +=
			'type' in deed || 'clock_min' in deed ? bytes.replaceAll(up, 'u').replaceAll(right, 'r').length : 1;
		terminal.type(bytes);
		if ('leave' in deed) return { askings, told, keys };
		const counted = await answered(question);
		if (!counted && !('clock_min' in deed)) continue;
		if (deed === queue[0]) queue.shift();
		askings.push({ asked: own.asked, seen, deed, first, next: terminal.frames.length - 1, ...struck });
	}
	throw new Error('the day comes to no end');
}
