import { inert } from '../job/inert.ts';
import type { Layout } from '../screen/keys/layouts.ts';
import { keyTimes } from '../screen/keys/thresholds.ts';
import { noticeTexts } from '../screen/notices.ts';
import type { Session } from '../screen/session-port.ts';
import { openWorking } from '../screen/working.ts';
import { freshEar, hears, type Told } from '../voice/ear.ts';
import { type Meant, meant } from './line.ts';
import { pageOf } from './page.ts';

/** A day told and answered in lines. */
export type Talk = {
	/** One line that was typed; `live` by a person, who can have meant it for the question before. */
	take(line: string, live: boolean): void;
	/** Looks at the day, and prints what is new. */
	look(): void;
	cutOff(kind: 'hangup' | 'suspend'): void;
	close(): void;
};

export type TalkPorts = {
	session: Session;
	write(text: string): void;
	/** Milliseconds that only go forward. */
	mono(): number;
	/** Nothing more is to be told; `left`: somebody went away in the middle. */
	leave(why: 'closed' | 'left'): void;
};

const counted = (line: string): string => line.replace(/\d+/g, '0');

/** Opens a talk; nothing is printed before the first look. */
export function openTalk(
	{ session, write, mono, leave }: TalkPorts,
	layout: Layout,
	told: Omit<Told, 'overdue'>,
): Talk {
	let ear = freshEar;
	let view = session.view();
	/** What has been printed beside the question; what is counted in it does not make it new. */
	let beside = new Set<string>();
	let asked_ms = Number.NEGATIVE_INFINITY;
	let open = true;
	const print = (...lines: string[]) => write(lines.map(line => `${inert(line)}\n`).join(''));
	const page = () => print('', ...pageOf(view, layout));

	const { work, busy } = openWorking();
	/** Lines that have come to stand beside the same question; none while a face is sprayed. */
	const printNewLines = () => {
		const fresh = view.ask === 'spraying' ? [] : view.lines.filter(line => !beside.has(counted(line)));
		if (fresh.length > 0) print(...fresh);
		for (const line of fresh) beside.add(counted(line));
	};
	/** True where another question was printed. */
	const look = (): boolean => {
		if (!open) return false;
		work(() => session.tick());
		view = session.view();
		const before = ear.screen;
		const step = hears(ear, view, { ...told, overdue: false });
		ear = step.ear;
		const isNew = before !== ear.screen;
		if (isNew) {
			asked_ms = mono();
			beside = new Set(view.lines.map(counted));
			page();
		} else {
			if (step.heard.say !== null) print(step.heard.say);
			printNewLines();
		}
		if (view.ask === 'closed' && Object.keys(view.corners).length === 0) leave('closed');
		return isNew;
	};
	const answer = ({ answer: given }: Extract<Meant, { is: 'answer' }>) => {
		const outcome = work(() => session.answer(given));
		if (session.over?.()) return leave('closed');
		const isNew = look();
		if (!outcome.accepted) print(outcome.reason?.text ?? noticeTexts['no-answer-there']);
		else if (!isNew && open) page();
	};
	const act = (what: Meant) => {
		if (what.is === 'leave') leave('left');
		else if (what.is === 'again') page();
		else if (what.is === 'refused') print(what.why);
		else if (what.is === 'answer') answer(what);
		else {
			work(() => session.moveClock?.(what.by_ms));
			look();
		}
	};
	const quiet = session.onChange(() => {
		if (!busy()) look();
	});
	return {
		take(line, live) {
			if (!open) return;
			const what = meant(line, view, layout);
			const holds = what.is === 'answer' && 'key' in what.answer && what.answer.key === 'hold';
			const early = live && mono() - asked_ms < keyTimes.newScreen_ms;
			if (early && what.is === 'answer' && !holds) print(noticeTexts['too-soon']);
			else act(what);
		},
		look,
		cutOff(kind) {
			work(() => session.break(kind));
		},
		close() {
			open = false;
			quiet();
			session.close();
		},
	};
}
