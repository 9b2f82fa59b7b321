import { expect, test } from 'vitest';
import { atDesk } from './harness.ts';
import { viewOf } from './views.ts';

/** A reason typed at the bench, while the space bar is hold. */

async function atText(size = { columns: 80, rows: 24 }) {
	const desk = atDesk(viewOf('text'), size);
	desk.clock.pass(600);
	await desk.shown();
	return desk;
}

test('the screen says how words are parted, what keeps them and what lets them be', async () => {
	for (const size of [
		{ columns: 40, rows: 12 },
		{ columns: 80, rows: 24 },
	]) {
		const shown = await (await atText(size)).shown();
		for (const words of ['_ parts words, Enter keeps it.', 'space: hold', 'ESC', 'why go on?'])
			expect(shown).toContain(words);
	}
});

test('letters, marks and letters of corner keys are typed; Enter keeps them, an underline for each space', async () => {
	const desk = await atText();
	await desk.type('Extra_fan:_x,_é,_門.');
	expect(await desk.shown()).toContain('Extra fan: x, é, 門._');
	expect(desk.fake.log).toEqual([]);
	await desk.type('\r');
	expect(desk.fake.log).toEqual([{ text: 'Extra fan: x, é, 門.' }]);
});

test('the space bar holds in the middle of a word, and nothing of it is kept', async () => {
	const desk = await atText();
	await desk.type('because ');
	expect(desk.fake.log).toEqual([{ key: 'hold' }]);
});

test('nothing typed is no reason', async () => {
	const desk = await atText();
	await desk.type('___\r');
	expect(desk.fake.log).toEqual([]);
	expect(await desk.shown()).toContain('type the reason first');
});

test('control characters, escape sequences, invisible marks and pastes add nothing', async () => {
	const desk = await atText();
	await desk.type('a\u001b[2Jb\u001b]0;x\u0007\u0001\u200b\u202ec\u001b[A');
	desk.clock.pass(60);
	await desk.type('\u001b[200~pasted\u001b[201~d\r');
	const [answer] = desk.fake.log;
	expect(answer).toMatchObject({ text: expect.stringMatching(/^[ -~]*d$/) });
	expect(JSON.stringify(answer)).not.toMatch(/pasted|\\u/);
});

test('Escape takes back what is typed, and with nothing typed gives the one answer on the screen', async () => {
	const desk = await atText();
	await desk.type('half\u001b');
	desk.clock.pass(60);
	expect(desk.fake.log).toEqual([]);
	expect(await desk.shown()).not.toContain('half');
	await desk.type('\u001b');
	desk.clock.pass(60);
	expect(desk.fake.log).toEqual([{ key: 'bottomRight' }]);
});

test('200 code points are taken and no more, and the end of them stays in sight in a small window', async () => {
	const desk = await atText({ columns: 40, rows: 12 });
	const words = `${'word_'.repeat(39)}the_last`;
	await desk.type(words);
	expect(await desk.shown()).toContain('the l_');
	await desk.type('\r');
	expect(desk.fake.log).toEqual([{ text: words.slice(0, 200).replaceAll('_', ' ') }]);
});
