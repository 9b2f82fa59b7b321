import type { View } from '../day/view.ts';
import { freshEar, hears, type Sound, type Told } from './ear.ts';

/** A day as it is heard: told of every view that is shown, and of every answer that was not taken. */
export type Voice = {
	heed(view: View): void;
	refused(): void;
	/** Says the sentence of the present view once more. */
	again(): void;
	close(): void;
};

export type VoicePorts = {
	say(sentence: string): void;
	hush(): void;
	play(sound: Sound): void;
	/** Tells somebody who looks at another window. */
	notify(text: string): void;
	close(): void;
	told(): Told;
};

/** Opens the voice of a day. */
export function openVoice(ports: VoicePorts): Voice {
	let ear = freshEar;
	let shown: View | null = null;
	const isQuiet = () => shown === null || shown.ask === 'spraying';
	return {
		heed(view) {
			const step = hears(ear, view, ports.told());
			const { say, sound, notice, hush } = step.heard;
			ear = step.ear;
			shown = view;
			if (hush) ports.hush();
			if (sound) ports.play(sound);
			if (say !== null) ports.say(say);
			if (notice !== null) ports.notify(notice);
		},
		refused() {
			if (!isQuiet()) ports.play('refused');
		},
		again() {
			if (shown && !isQuiet()) ports.say(shown.say);
		},
		close() {
			ports.hush();
			ports.close();
		},
	};
}

/** What a voice needs of a session. */
type Heeded = {
	view(): View;
	answer(answer: never): { accepted: boolean };
	close(): void;
};

/** A session that is heard as well as seen. */
export function heard<Session extends Heeded>(
	session: Session,
	voice: Voice,
): Session & { sayAgain(): void } {
	return {
		...session,
		view() {
			const view = session.view();
			voice.heed(view);
			return view;
		},
		answer(given: never) {
			const outcome = session.answer(given);
			if (!outcome.accepted) voice.refused();
			return outcome;
		},
		sayAgain: voice.again,
		close() {
			voice.close();
			session.close();
		},
	};
}
