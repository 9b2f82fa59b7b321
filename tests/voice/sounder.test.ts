import { expect, test } from 'vitest';
import type { Sound } from '../../src/voice/ear.ts';
import { openSounder } from '../../src/voice/sounder.ts';
import { bells, notes, sampleRate_Hz, waveOf } from '../../src/voice/tones.ts';
import { fakePrograms, pause, until } from './fake-program.ts';

const sounds = Object.keys(notes) as Sound[];

/** The heights of a wave, one for each stretch of 0.1 s, by its crossings of zero. */
function heights_Hz(wave: Buffer): number[] {
	const samples = Array.from({ length: (wave.length - 44) / 2 }, (_, at) => wave.readInt16LE(44 + at * 2));
	const stretch = sampleRate_Hz / 10;
	const whole = Array.from({ length: Math.floor(samples.length / stretch) }, (_, at) =>
		samples.slice(at * stretch, (at + 1) * stretch),
	);
	return whole.map(part => {
		const crossings = part.filter((value, at) => at > 0 && value >= 0 !== (part[at - 1] ?? 0) >= 0).length;
		return crossings * 5;
	});
}

test('there are four sounds, each 0.5 s or longer and between 500 and 3000 Hz (MIL-STD-1472E 5.3)', () => {
	expect(sounds).toHaveLength(4);
	for (const sound of sounds) {
		const wave = waveOf(sound);
		expect(wave.subarray(0, 4).toString('latin1')).toBe('RIFF');
		expect(wave.readUInt32LE(4)).toBe(wave.length - 8);
		expect((wave.length - 44) / 2 / sampleRate_Hz).toBeGreaterThanOrEqual(0.5);
		for (const height of heights_Hz(wave)) {
			expect(height).toBeGreaterThanOrEqual(500);
			expect(height).toBeLessThanOrEqual(3000);
		}
	}
	expect(new Set(sounds.map(sound => heights_Hz(waveOf(sound)).join()))).toHaveProperty('size', 4);
});

test('each sound swells from nothing and fades to nothing, and is loud between', () => {
	for (const sound of sounds) {
		const wave = waveOf(sound);
		expect(Math.abs(wave.readInt16LE(44))).toBeLessThan(400);
		expect(Math.abs(wave.readInt16LE(wave.length - 2))).toBeLessThan(400);
		const loudest = Math.max(
			...Array.from({ length: (wave.length - 44) / 2 }, (_, at) => wave.readInt16LE(44 + at * 2)),
		);
		expect(loudest).toBeGreaterThan(15_000);
	}
});

test('a player of the system plays the file of the sound; the next sound stops it', async () => {
	const system = fakePrograms();
	system.add('aplay', { takes_ms: 20_000 });
	let rings = 0;
	const sounder = openSounder(() => rings++, system.env, 'linux');
	sounder.play('soon');
	await until(() => system.log().length === 1);
	sounder.play('over');
	await until(() => system.log().length === 2);
	expect(system.log()).toEqual(['begins aplay -q soon.wav|', 'begins aplay -q over.wav|']);
	sounder.close();
	expect(rings).toBe(0);
});

test('without a player, or with one that fails, the bell rings: each sound another number of times', async () => {
	expect(new Set(Object.values(bells)).size).toBe(4);
	const system = fakePrograms();
	system.add('aplay', { fails: true });
	for (const env of [{ PATH: '' }, system.env]) {
		let rings = 0;
		const sounder = openSounder(() => rings++, env, 'linux');
		sounder.play('soon');
		await until(() => rings === bells.soon);
		await pause(500);
		expect(rings).toBe(bells.soon);
		sounder.close();
	}
});

test('at the far end of a line the terminal’s bell rings, since no loudspeaker of that machine is near', async () => {
	const system = fakePrograms();
	system.add('aplay');
	let rings = 0;
	const sounder = openSounder(
		() => rings++,
		{ ...system.env, SSH_CONNECTION: '192.0.2.1 1 192.0.2.2 22' },
		'linux',
	);
	sounder.play('refused');
	await until(() => rings === 1);
	expect(system.log()).toEqual([]);
	sounder.close();
});

test('once closed the bell stays still', async () => {
	let rings = 0;
	const sounder = openSounder(() => rings++, { PATH: '' }, 'linux');
	sounder.play('held');
	await until(() => rings === 1);
	sounder.close();
	await pause(500);
	expect(rings).toBe(1);
});
