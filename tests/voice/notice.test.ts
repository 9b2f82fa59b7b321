import { expect, test } from 'vitest';
import { noticeBytes } from '../../src/voice/notice.ts';

test('a terminal that says it can shows the sentence outside its window', () => {
	expect(noticeBytes('Wait: 2 min left.', { TERM: 'xterm-kitty' })).toBe('\u001b]9;Wait: 2 min left.\u0007');
	expect(noticeBytes('Wait: 2 min left.', { TERM: 'foot' })).toBe(
		'\u001b]777;notify;fanwise;Wait: 2 min left.\u0007',
	);
});

test('one that does not say so, or that sits behind a multiplexer, is sent nothing', () => {
	for (const env of [
		{},
		{ TERM: 'xterm-256color' },
		{ TERM: 'foot', TMUX: '/tmp/x' },
		{ TERM: 'screen.foot' },
	])
		expect(noticeBytes('Wait: 2 min left.', env)).toBeNull();
});

test('a name cannot end the sequence or begin another field', () => {
	const bytes = noticeBytes('Wait: lid\u0007\u001b]0;gone; x.', { TERM: 'foot' }) ?? '';
	expect(bytes).toBe('\u001b]777;notify;fanwise;Wait: lid<U+0007><U+001B>]0,gone, x.\u0007');
});
