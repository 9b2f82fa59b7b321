import { aloud } from './aloud.ts';
import { type Running, run } from './child.ts';
import { type Environment, onPath } from './on-path.ts';

/** Speaks one sentence at a time. */
export type Speaker = {
	/** Stops what is being said, and says this instead. */
	say(sentence: string): void;
	/** Stops what is being said. */
	hush(): void;
};

/** A program that reads a sentence from its standard input and speaks it; what silences it, where ending it does not. */
type SpeakingProgram = { name: string; args: readonly string[]; silence?: readonly string[] };

const powershell = [
	'Add-Type -AssemblyName System.Speech',
	'(New-Object System.Speech.Synthesis.SpeechSynthesizer).Speak([Console]::In.ReadToEnd())',
].join('; ');

const speakers: Record<'darwin' | 'win32' | 'other', readonly SpeakingProgram[]> = {
	darwin: [{ name: 'say', args: ['-f', '-'] }],
	win32: [{ name: 'powershell.exe', args: ['-NoProfile', '-NonInteractive', '-Command', powershell] }],
	other: [
		{ name: 'espeak-ng', args: ['--stdin'] },
		{ name: 'spd-say', args: ['-e'], silence: ['-S'] },
		{ name: 'espeak', args: ['--stdin'] },
	],
};

/**
 * The system's speaker, looked for when the first sentence comes. One that fails by itself is given up for the next;
 * where there is none, nothing is heard.
 */
export function systemSpeaker(env: Environment, platform: NodeJS.Platform = process.platform): Speaker {
	const left = [...speakers[platform === 'darwin' || platform === 'win32' ? platform : 'other']];
	let running: Running | null = null;
	let next: string | null = null;
	let busy = false;

	/** Silences a speaker that goes on by itself; null until one was used. */
	let silence: (() => Promise<unknown>) | null = null;
	const speak = async () => {
		while (next !== null) {
			const [program] = left;
			if (!program) return;
			const path = onPath(program.name, env);
			if (path === null) {
				left.shift();
				continue;
			}
			await silence?.();
			const sentence = next;
			next = null;
			if (sentence === null) return;
			const { silence: args } = program;
			silence = args ? () => run(path, args, '').ended : null;
			running = run(path, program.args, aloud(sentence));
			const how = await running.ended;
			running = null;
			if (how === 'failed') {
				left.shift();
				next ??= sentence;
			}
		}
	};
	const start = async () => {
		if (busy) return;
		busy = true;
		await speak();
		busy = false;
	};
	return {
		say(sentence) {
			next = sentence;
			running?.stop();
			void start();
		},
		hush() {
			next = null;
			running?.stop();
			void silence?.();
		},
	};
}
