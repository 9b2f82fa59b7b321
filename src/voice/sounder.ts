import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Running, run } from './child.ts';
import type { Sound } from './ear.ts';
import { type Environment, onPath } from './on-path.ts';
import { bells, waveOf } from './tones.ts';

export type Sounder = { play(sound: Sound): void; close(): void };

type Player = { name: string; args(path: string): string[] };

const soundPlayer = (path: string) =>
	`(New-Object Media.SoundPlayer '${path.replaceAll("'", "''")}').PlaySync()`;

const players: Record<'darwin' | 'win32' | 'other', readonly Player[]> = {
	darwin: [{ name: 'afplay', args: path => [path] }],
	win32: [
		{
			name: 'powershell.exe',
			args: path => ['-NoProfile', '-NonInteractive', '-Command', soundPlayer(path)],
		},
	],
	other: [
		{ name: 'pw-play', args: path => [path] },
		{ name: 'paplay', args: path => [path] },
		{ name: 'aplay', args: path => ['-q', path] },
	],
};

const bellGap_ms = 350;

/**
 * Plays the four sounds: as tones where the system has a player, and its loudspeaker is where the painter is;
 * otherwise as rings of the terminal's bell.
 *
 * @param ring writes a bell to the terminal
 */
export function openSounder(
	ring: () => void,
	env: Environment,
	platform: NodeJS.Platform = process.platform,
): Sounder {
	const far = env.SSH_CONNECTION !== undefined;
	const left = far ? [] : [...players[platform === 'darwin' || platform === 'win32' ? platform : 'other']];
	let folder: string | null = null;
	let running: Running | null = null;
	let rings: NodeJS.Timeout | null = null;
	let open = true;

	const ringOut = (count: number) => {
		if (rings) clearTimeout(rings);
		rings = null;
		if (count === 0 || !open) return;
		ring();
		rings = setTimeout(() => ringOut(count - 1), bellGap_ms).unref();
	};
	const fileOf = (sound: Sound): string => {
		folder ??= mkdtempSync(join(tmpdir(), 'fanwise-sounds-'));
		const path = join(folder, `${sound}.wav`);
		writeFileSync(path, waveOf(sound));
		return path;
	};
	const play = async (sound: Sound): Promise<void> => {
		const [player] = left;
		if (!player) return ringOut(bells[sound]);
		const path = onPath(player.name, env);
		running?.stop();
		const mine = path === null ? null : run(path, player.args(fileOf(sound)), '');
		running = mine;
		if (mine !== null && (await mine.ended) !== 'failed') return;
		left.shift();
		if (open) await play(sound);
	};
	return {
		play: sound => void play(sound),
		close() {
			ringOut(0);
			open = false;
			running?.stop();
			if (folder !== null) rmSync(folder, { recursive: true, force: true });
		},
	};
}
