import type { BreakKind } from '../day/records.ts';
import type { Session as DaySession } from '../day/session.ts';
import type { Settings } from '../day/settings.ts';
import { layoutOf } from '../screen/keys/layouts.ts';
import type { Session } from '../screen/session-port.ts';
import { canDraw } from '../screen/terminal.ts';
import { noticeBytes } from '../voice/notice.ts';
import { openSounder } from '../voice/sounder.ts';
import { systemSpeaker } from '../voice/speaker.ts';
import { heard, openVoice } from '../voice/voice.ts';
import type { Io, Option } from './command.ts';

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

/** A day can be shown here: as lines anywhere, as screens only in a terminal that moves its cursor. */
export const canShow = (plain: boolean, io: Io): boolean =>
	plain || canDraw(process.stdin, process.stdout, io.env);

/**
 * Shows a day, or a picker, until it is left: in this process's terminal, or as lines where the settings say plain.
 * @returns exit status
 */
export async function show(shown: Shown, io: Io): Promise<number> {
	const { settings } = shown;
	const session = withVoice(shown, io);
	if (settings.plain) {
		const { runPlain } = await import('../plain/run.ts');
		const ports = {
			session,
			input: io.stdin ?? process.stdin,
			write: (text: string) => void io.stdout.write(text),
			signals: process,
		};
		return runPlain(ports, layoutOf(settings.layout, settings.learned), settings);
	}
	const { showSession } = await import('../screen/show-day.ts');
	return (await showSession(session, settings)).status;
}

/** The option of every command that shows a day. */
export const plainOption: Option = {
	type: 'boolean',
	says: 'lines of text in place of the screens, for a screen reader or a pipe',
};
