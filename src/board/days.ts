import { type FSWatcher, watch } from 'node:fs';
import { basename } from 'node:path';
import { listDays } from '../day/file/folder.ts';
import { standingOf } from '../day/file/lock.ts';
import { type OpenDay, openDays } from '../day/file/open-days.ts';
import type { FilePort } from '../day/file/port.ts';
import { asDay, DayFileError } from '../day/file/trouble.ts';
import { type JobDue, jobsDue } from '../day/jobs-due.ts';
import { standsAt } from '../day/now.ts';
import { freshUi } from '../day/prompt.ts';
import { viewOf } from '../day/view-of.ts';
import { inert } from '../job/inert.ts';
import type { Calls } from './calls.ts';
import { type Followed, follow } from './followed.ts';
import type { Hub } from './hub.ts';
import { ofView } from './of-view.ts';
import type { DayShown, ElsewhereShown } from './shown.ts';

/** A program not heard of for so long is not heard, s. This project's own choice. */
const unheard_s = 90;
/** Closed days are worked out again at the latest so often: what may be done changes with the hour, ms. */
const elsewhere_ms = 600_000;

export type Days = {
	/** Looks at every open day again. */
	look(): void;
	/** Somebody should look in on one of them. */
	isCalling(): boolean;
	close(): void;
};

type Watched = {
	day: OpenDay;
	followed: Followed | null;
	/** When some program was last seen to have it open, ms. */
	heard: number;
	/** As it was told last. */
	shown: DayShown | null;
};

const isUnread = ({ shown }: Watched) => shown === null;
const nameOf = ({ day }: Watched) => inert(day.name);

type On = { folder: string; port: FilePort; hub: Hub; calls: Calls; now: () => number };

const inWords = (error: unknown): string => {
	if (!(error instanceof DayFileError)) throw error;
	return error.kind === 'missing' ? 'Its file is not there' : 'Its file cannot be read now';
};

const finite = (at: number): number | null => (Number.isFinite(at) ? at : null);
const elsewhere = ({ name, due }: JobDue): ElsewhereShown => ({
	...{ job: inert(name), what: inert(due.what), isLate: due.isLate },
	...{ from: finite(due.from), until: finite(due.until) },
});

/** Follows the open days of a folder and tells of each. It writes in no day, and locks none. */
export function followDays({ folder, port, hub, calls, now }: On): Days {
	const watched = new Map<string, Watched>();
	let listed = '';
	let jobs: { at: number; next: number; found: JobDue[] } = { at: 0, next: 0, found: [] };

	const list = () => {
		const names = listDays(folder, port);
		/** A day that is followed tells by itself what becomes of it. */
		const seen = JSON.stringify(names.map(({ path, size }) => (watched.has(path) ? path : [path, size])));
		if (seen === listed) return;
		listed = seen;
		const open = openDays(folder, port);
		for (const day of open)
			if (!watched.has(day.path)) watched.set(day.path, { day, followed: null, heard: 0, shown: null });
		for (const [path, { followed }] of watched) {
			if (open.some(one => one.path === path)) continue;
			watched.delete(path);
			if (followed) gone(followed.id);
		}
		jobs = { ...jobs, next: 0 };
	};
	const gone = (id: string) => hub.end(id, { about: 'gone', day: id });
	const lookElsewhere = () => {
		const at = now();
		if (at < jobs.next) return;
		const open = [...watched.values()].map(({ day }) => day.name);
		const found = jobsDue(open, at, folder);
		const edges = found.flatMap(({ due }) => [due.from, due.until]).filter(edge => edge > at);
		jobs = { at, next: Math.min(at + elsewhere_ms, ...edges), found };
		hub.tell('elsewhere', { about: 'elsewhere', jobs: found.map(elsewhere) });
	};
	const shown = (one: Watched, { state, lookout, id }: Followed): DayShown => {
		const at = Math.max(now(), state.book.now.wall);
		const view = asDay(one.day.path, () => viewOf(standsAt(state, at), freshUi, false));
		const isHeard = at - one.heard <= unheard_s * 1000;
		const held = state.machine.value === 'hold' ? state.book.break : null;
		return {
			day: id,
			job: inert(state.book.opened.job),
			...ofView(view, state.book.opened.sheet, Number.parseInt(id.slice(0, 7), 16)),
			answered: lookout.answered,
			heldSince: held?.since.wall ?? null,
			isHeard,
			trouble: null,
			calling: calls.calling(id, lookout, isHeard, at),
		};
	};
	/** As it stands now; where that cannot be read, as it stood, and why. */
	const shownOrWhy = (one: Watched): DayShown | null => {
		try {
			one.followed = follow(one.day.path, one.followed, port);
			return shown(one, one.followed);
		} catch (error) {
			return one.shown && { ...one.shown, trouble: inWords(error) };
		}
	};
	const lookAt = (one: Watched) => {
		const standing = standingOf(one.day.path, port);
		if (standing !== null && standing !== 'gone') one.heard = now();
		one.shown = shownOrWhy(one);
		hub.tell('unread', { about: 'unread', names: [...watched.values()].filter(isUnread).map(nameOf) });
		if (one.followed?.state.machine.value === 'closed') {
			watched.delete(one.day.path);
			jobs = { ...jobs, next: 0 };
			gone(one.followed.id);
		} else if (one.shown) hub.tell(one.shown.day, { about: 'day', shown: one.shown });
	};
	const look = () => {
		try {
			list();
		} catch (error) {
			/** The folder is away for a while: what is known of it stands. */
			inWords(error);
		}
		for (const one of [...watched.values()]) lookAt(one);
		lookElsewhere();
	};

	/** Where the system tells of no changes, the look of every second finds them. */
	let watcher: FSWatcher | null = null;
	try {
		watcher = watch(folder, (_, name) => {
			const one = [...watched.values()].find(({ day }) => basename(day.path) === name);
			if (one) lookAt(one);
		});
		watcher.on('error', () => watcher?.close());
	} catch {}
	look();
	const second = setInterval(look, 1000);
	return {
		look,
		isCalling: () => [...watched.values()].some(({ shown: its }) => its !== null && its.calling !== null),
		close() {
			clearInterval(second);
			watcher?.close();
		},
	};
}
