import { createInterface } from 'node:readline';
import { realClock } from '../day/clock.ts';
import { goingOn, type RehearsedDays } from '../day/going-on.ts';
import { pulledClock } from '../day/pulled-clock.ts';
import { rehearse } from '../day/rehearsal.ts';
import { runningClock } from '../day/running-clock.ts';
import { type Session as DaySession, openSession, type Sink } from '../day/session.ts';
import type { Settings } from '../day/settings.ts';
import { portOf } from '../screen/session-port.ts';
import { SourceError } from '../trigger/source.ts';
import type { Io } from './command.ts';
import { canShow, show, shownDay } from './show.ts';
import { badLines, listen, playedPulls, type TriggerLine, tellBad } from './trigger.ts';
import { leftUnkept } from './unkept.ts';

/** A rehearsed job: its newest day, opened anew at every start, and the days that follow it. */
export type Rehearsed = { open(): Sink; days: RehearsedDays };

/** Answers lines with lines of JSON, on a clock that stands still between them. */
export async function answerLines(
	{ open, days }: Rehearsed,
	start: number,
	line: TriggerLine,
	io: Io,
): Promise<number> {
	const played = playedPulls(line);
	if (line.source !== null && !played)
		throw new SourceError(
			`--trigger ${line.source}: with --json only a recording can be played: name its file`,
		);
	if (played && played.bad > 0) io.stderr.write(`${badLines(played.bad)}\n`);
	const rehearsal = rehearse(open, start, played?.pulls, undefined, days);
	const say = (answer: unknown) => io.stdout.write(`${JSON.stringify(answer)}\n`);
	say(rehearsal.first());
	for await (const given of createInterface({
		input: io.stdin ?? process.stdin,
		crlfDelay: Number.POSITIVE_INFINITY,
	}))
		say(rehearsal.take(given));
	rehearsal.session().break('hangup');
	rehearsal.close();
	return leftUnkept(rehearsal.session(), 0, io);
}

/** The screens of a real day, or its lines, on a clock that runs on and can be put forward. */
export async function watch(
	{ open, days }: Rehearsed,
	start: number,
	{ settings, line }: { settings: Settings; line: TriggerLine },
	io: Io,
): Promise<number> {
	if (!canShow(settings.plain, io)) {
		io.stderr.write(
			'fanwise rehearse: there is no terminal here: answer in lines with --plain, or line by line with --json\n',
		);
		return 2;
	}
	const played = playedPulls(line);
	const running = runningClock(realClock(), start);
	const clock = pulledClock(running, played?.pulls ?? [], on => void day?.trigger(on));
	const listening = listen(played ? { source: null, record: null } : line, clock.now);
	let day: DaySession | null = null;
	try {
		const sink = open();
		const notice = days.notice(sink.records);
		day = goingOn(openSession({ sink, clock, rehearsal: true, notice }), {
			...{ clock, forward: running.forward, days },
		});
		const session = listening.attach(day, portOf(day, running.forward));
		return leftUnkept(day, await show(shownDay(day, tellBad(played?.bad ?? 0, session), settings), io), io);
	} finally {
		listening.close();
		clock.stop();
	}
}
