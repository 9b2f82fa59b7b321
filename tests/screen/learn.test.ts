import { describe, expect, test } from 'vitest';
import { press } from '../../src/screen/keys/key.ts';
import { builtIn, type LearnedKeys } from '../../src/screen/keys/layouts.ts';
import { keysTouch } from '../../src/screen/keys/places.ts';
import { keysStandApart, type Learning, learningStart, learnKey } from '../../src/screen/learn.ts';

function taught(...names: string[]): { state: Learning; refused: (string | null)[] } {
	let state = learningStart;
	const refused = names.map(name => {
		const step = learnKey(state, press(name), 'us');
		state = step.state;
		return step.refused;
	});
	return { state, refused };
}

describe('learning the keys', () => {
	test('each corner takes its keys; one pressed again ends it', () => {
		const { state } = taught('q', 'w', 'q', 'p', 'p', 'z', 'z', '/', '/', 'enter');
		expect(state).toEqual({
			at: null,
			keys: { topLeft: ['q', 'w'], topRight: ['p'], bottomLeft: ['z'], bottomRight: ['/'], hold: [] },
		});
	});

	test('a pedal or a number pad can be learned', () => {
		const { state } = taught('pad-7', 'pad-7', 'pad-9', 'pad-9', 'pad-1', 'pad-1', 'f10', 'f10', 'f1', 'f1');
		expect(state.at).toBeNull();
		expect(state.keys.hold).toEqual(['f1']);
		expect(keysStandApart(state.keys, 'us')).toBeNull();
	});

	test('keys that touch one of another corner are refused, and the corner goes on being asked', () => {
		const { state, refused } = taught('e', 'e', 'r', 'd', '4', 'y');
		expect(refused).toEqual([null, null, 'touches', 'touches', 'touches', null]);
		expect(state).toMatchObject({ at: 'topRight', keys: { topRight: ['y'] } });
	});

	test('space, combinations and keys without a name are refused', () => {
		expect(taught('space', 'unknown', 'paste').refused).toEqual(['space', 'no-key', 'no-key']);
		expect(learnKey(learningStart, press('c', { ctrl: true }), 'us').refused).toBe('no-key');
	});

	test('a key of another corner is refused', () => {
		expect(taught('q', 'q', 'q').refused).toEqual([null, null, 'taken']);
	});

	test('a repeat or a release teaches nothing', () => {
		expect(learnKey(learningStart, press('q', { kind: 'release' }), 'us').state).toEqual(learningStart);
		expect(learnKey(learningStart, press('q', { kind: 'repeat' }), 'us').state).toEqual(learningStart);
	});
});

test.each(['us', 'german', 'french'] as const)('no two blocks of the %s layout touch', layout => {
	const keys: LearnedKeys = { ...builtIn[layout], hold: [] };
	expect(keysStandApart(keys, layout)).toBeNull();
});

test('number pad corners have a key between them, digits of the number row are judged in both places', () => {
	expect(keysTouch('pad-7', 'pad-9', 'us')).toBe(false);
	expect(keysTouch('pad-7', 'pad-1', 'us')).toBe(false);
	expect(keysTouch('pad-7', 'pad-8', 'us')).toBe(true);
	expect(keysTouch('7', '9', 'us')).toBe(false);
	expect(keysTouch('3', '6', 'us')).toBe(true);
	expect(keysTouch('3', 'e', 'us')).toBe(true);
});

test('keys in one place on two keyboards touch on the right one only', () => {
	expect(keysTouch('z', 't', 'german')).toBe(true);
	expect(keysTouch('z', 't', 'us')).toBe(false);
	expect(keysTouch('a', 'z', 'french')).toBe(true);
});
