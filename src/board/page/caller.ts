import { notes } from '../../voice/tones.ts';

/** The call as sound. A browser plays none before somebody has touched the page. */
export type Caller = { call(isCalling: boolean): void; isAwake(): boolean };

const pause_ms = 3000;

export function openCaller(): Caller {
	let context: AudioContext | null = null;
	let calling: ReturnType<typeof setInterval> | null = null;
	const wake = () => {
		context ??= new AudioContext();
		void context.resume();
	};
	addEventListener('pointerdown', wake);
	addEventListener('keydown', wake);
	const sound = () => {
		if (context?.state !== 'running') return;
		let at = context.currentTime;
		for (const { Hz, s } of notes.held) {
			const tone = new OscillatorNode(context, { frequency: Hz });
			tone.connect(context.destination);
			tone.start(at);
			at += s;
			tone.stop(at);
		}
	};
	return {
		isAwake: () => context?.state === 'running',
		call(isCalling) {
			if (isCalling === (calling !== null)) return;
			if (calling !== null) clearInterval(calling);
			calling = isCalling ? setInterval(sound, pause_ms) : null;
			if (isCalling) sound();
		},
	};
}
