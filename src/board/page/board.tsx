import { timeLeft } from '../../screen/captions.ts';
import { clockOn } from '../../words/clock.ts';
import { type Due, duesOf } from '../due.ts';
import { Card } from './card.tsx';
import { Letters } from './letters.tsx';
import type { Known } from './told.ts';

/** Without a byte for so long the page is cut off, ms. This project's own choice. */
const cutOff_ms = 25_000;
const mostDues = 4;
/** Days that have room on the wall beside each other. */
const mostAtOnce = 4;

const here = Intl.DateTimeFormat().resolvedOptions().timeZone;

const dueSays = ({ says, job, at, zone, isLate }: Due, now: number): string =>
	`${isLate ? 'LATE: ' : `${clockOn(at, now, zone ?? here)} `}${says}, ${job}`;

function Next({ dues, now }: { dues: readonly Due[]; now: number }) {
	const [first, ...rest] = dues;
	const word = !first ? 'NOTHING DUE' : first.isLate ? 'LATE' : timeLeft((first.at - now) / 1000);
	return (
		<section class="next" aria-label="next due">
			<Letters text={word} kind="due" />
			<div>
				<h1 class="first">{first ? dueSays(first, now) : 'No time runs that the board is told of.'}</h1>
				{rest.slice(0, mostDues - 1).map(due => (
					<p key={dueSays(due, now)}>{dueSays(due, now)}</p>
				))}
			</div>
		</section>
	);
}

type Given = {
	known: Known;
	/** This machine's clock, ms. */
	now: number;
	isSounding: boolean;
	lookIn(day: string, name: string): Promise<string>;
};

/** The whole page, from what it was told. */
export function Board({ known, now, isSounding, lookIn }: Given) {
	const at = now + known.ahead_ms;
	const days = [...known.days.values()].toSorted(
		(one, other) => Number(other.calling !== null) - Number(one.calling !== null),
	);
	const silent_ms = now - known.heard;
	const isCut = silent_ms > cutOff_ms;
	return (
		<div
			class={`board${isCut ? ' cut' : ''}${days.length > mostAtOnce ? ' crowded' : ''}`}
			data-days={days.length}
		>
			{known.isShut && <p class="notice">Open the board by its address with # and its token.</p>}
			{isCut && (
				<p class="notice" role="alert">
					CUT OFF: this is how it stood {Math.round(silent_ms / 1000)} s ago
				</p>
			)}
			<Next dues={duesOf(days, known.jobs, at)} now={at} />
			<main>
				{days.map(shown => (
					<Card key={shown.day} {...{ shown, now: at, lookIn }} />
				))}
				{days.length === 0 && <p class="none">No day is open.</p>}
			</main>
			<footer>
				{known.unread.map(name => (
					<p key={name}>{name}: its day cannot be read. See fanwise log.</p>
				))}
				{known.isPlain && <p>Not encrypted: what is shown here can be read on its way.</p>}
				{!isSounding && <p class="touch">Touch once for sound.</p>}
				<p>
					Only to be read: keys are in the terminal. This replaces no procedure for lone work, and calls
					nobody but this room.
				</p>
			</footer>
		</div>
	);
}
