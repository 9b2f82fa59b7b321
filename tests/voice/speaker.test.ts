import { expect, test } from 'vitest';
import { systemSpeaker } from '../../src/voice/speaker.ts';
import { fakePrograms, pause, until } from './fake-program.ts';

test('a sentence goes to the system’s speaker by its standard input, units in words', async () => {
	const system = fakePrograms();
	system.add('espeak-ng');
	systemSpeaker(system.env, 'linux').say('Wait 12 min: the coat flashes.');
	await until(() => system.log().length === 2);
	expect(system.log()).toEqual([
		'begins espeak-ng --stdin|Wait 12 minutes: the coat flashes.',
		'ends espeak-ng --stdin',
	]);
});

test('a name that reads like an option or a command is read out, not obeyed', async () => {
	const system = fakePrograms();
	system.add('say');
	systemSpeaker(system.env, 'darwin').say('--voice [[slnc 9000]] $(reboot): coat 1.');
	await until(() => system.log().length === 2);
	expect(system.log()[0]).toBe('begins say -f -|--voice slnc 9000 $(reboot): coat 1.');
});

test('the next sentence stops the one before it', async () => {
	const system = fakePrograms();
	system.add('espeak-ng', { takes_ms: 20_000 });
	const speaker = systemSpeaker(system.env, 'linux');
	speaker.say('Hold.');
	await until(() => system.log().length === 1);
	speaker.say('Horns: which way do they stand?');
	await until(() => system.log().length === 2);
	expect(system.log()).toEqual([
		'begins espeak-ng --stdin|Hold.',
		'begins espeak-ng --stdin|Horns: which way do they stand?',
	]);
	speaker.hush();
});

test('of sentences that come together only the last is said', async () => {
	const system = fakePrograms();
	system.add('espeak-ng');
	const speaker = systemSpeaker(system.env, 'linux');
	for (const sentence of ['One.', 'Two.', 'Three.']) speaker.say(sentence);
	await until(() => system.log().includes('begins espeak-ng --stdin|Three.'));
	await pause(200);
	expect(system.log().filter(line => line.includes('Two'))).toEqual([]);
});

test('hushed, what is being said stops and nothing follows', async () => {
	const system = fakePrograms();
	system.add('espeak-ng', { takes_ms: 400 });
	const speaker = systemSpeaker(system.env, 'linux');
	speaker.say('Flow cup: how many seconds?');
	await until(() => system.log().length === 1);
	speaker.hush();
	await pause(700);
	expect(system.log()).toEqual(['begins espeak-ng --stdin|Flow cup: how many seconds?']);
});

test('a speaker that fails by itself is given up for the next, which says the same sentence', async () => {
	const system = fakePrograms();
	system.add('espeak-ng', { fails: true });
	system.add('spd-say');
	const speaker = systemSpeaker(system.env, 'linux');
	speaker.say('Card 3: which letters did the paint cover?');
	await until(() => system.log().length === 4);
	speaker.say('Touch the tab.');
	await until(() => system.log().length === 8);
	expect(system.log().filter(line => line.startsWith('begins'))).toEqual([
		'begins espeak-ng --stdin|Card 3: which letters did the paint cover?',
		'begins spd-say -e|Card 3: which letters did the paint cover?',
		'begins spd-say -S|',
		'begins spd-say -e|Touch the tab.',
	]);
});

test('where the system has no speaker nothing is heard and nothing breaks', async () => {
	const system = fakePrograms();
	const speaker = systemSpeaker(system.env, 'linux');
	speaker.say('Hold.');
	speaker.hush();
	speaker.say('Hold.');
	await pause(50);
	expect(system.log()).toEqual([]);
});

test('the speaker is looked for when the first sentence comes, not before', async () => {
	const system = fakePrograms();
	const speaker = systemSpeaker(system.env, 'linux');
	system.add('espeak-ng');
	speaker.say('Hold.');
	await until(() => system.log().length === 2);
	expect(system.log()[1]).toBe('ends espeak-ng --stdin');
});
