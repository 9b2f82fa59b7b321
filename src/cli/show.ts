import type { BreakKind } from '../day/records.ts';
import type { Session as DaySession } from '../day/session.ts';
import type { Settings } from '../day/settings.ts';
import type { Session } from '../screen/session-port.ts';
import { noticeBytes } from '../voice/notice.ts';
import { openSounder } from '../voice/sounder.ts';
import { systemSpeaker } from '../voice/speaker.ts';
import { heard, openVoice } from '../voice/voice.ts';
import type { Io } from './command.ts';

export type Shown = {
	session: Session;
	settings: Settings;
	/** Why the day is held; left out where there is no day. */
	held?(): BreakKind | undefined;
};

/**
 * A day to be shown. Its rules are the ones that it was begun under; how it is keyed, seen and heard is as the shop
 * has it now.
 */
export function shownDay(day: DaySession, session: Session, now: Settings): Shown {
	const { layout, learned, answer, voice, sounds, plain, screen_mm, distance_m } = now;
	const { book } = day.state();
	return {
		session,
		settings: {
			...book.opened.settings,
			...{ layout, learned, answer, voice, sounds, plain, screen_mm, distance_m },
		},
		held: () => day.state().book.break?.kind,
	};
}

/** The session as it is heard: spoken and sounded as the settings say, through this machine and this terminal. */
function withVoice({ session, settings, held }: Shown, io: Io): Session {
	const write = (bytes: string) => void (process.stdout.isTTY && io.stdout.write(bytes));
	const speaker = settings.voice ? systemSpeaker(io.env) : null;
	const sounder = settings.sounds ? openSounder(() => write('\u0007'), io.env) : null;
	const voice = openVoice({
		say: sentence => speaker?.say(sentence),
		hush: () => speaker?.hush(),
		play: sound => sounder?.play(sound),
		notify: text => write((settings.sounds && noticeBytes(text, io.env)) || ''),
		close: () => sounder?.close(),
		told: () => ({ ...settings, overdue: held?.() === 'overdue' }),
	});
	return heard(session, voice);
}

/**
 * Shows a day, or a picker, in this process's terminal until it is left.
 * @returns exit status
 */
export async function show(shown: Shown, io: Io): Promise<number> {
	const { showSession } = await import('../screen/show-day.ts');
	return (await showSession(withVoice(shown, io), shown.settings)).status;
}
