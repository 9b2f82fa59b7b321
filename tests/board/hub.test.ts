import { expect, test } from 'vitest';
import { mostBehind_bytes, openHub } from '../../src/board/hub.ts';

const text = async (reader: ReadableStreamDefaultReader<Uint8Array>) =>
	Buffer.from((await reader.read()).value ?? []).toString();

test('of two pieces that wait for a slow page the newer is sent, and the same one is not told twice', async () => {
	const hub = openHub(() => ({ about: 'board' }));
	const reader = hub.open(undefined)?.getReader();
	if (!reader) throw new Error('refused');
	await text(reader);
	hub.tell('one', { coats: 1 });
	hub.tell('one', { coats: 2 });
	hub.tell('one', { coats: 2 });
	hub.tell('two', { coats: 7 });
	const sent = await text(reader);
	expect(sent.match(/^data: .*/gm)).toEqual(['data: {"coats":2}', 'data: {"coats":7}']);
	expect(sent).toMatch(/^id: [0-9a-f]{16}\.2$/m);
	hub.close();
});

test('a page that reads nothing is cut off once it is too far behind, and holds no more than one piece a subject', async () => {
	const hub = openHub(() => ({ about: 'board' }));
	let cuts = 0;
	const page = hub.open(undefined, () => void cuts++);
	const long = 'x'.repeat(10_000);
	for (let n = 0; hub.pages() === 1 && n < 1000; n++) {
		hub.tell('one', { n, long });
		expect(n * long.length).toBeLessThanOrEqual(mostBehind_bytes + long.length);
	}
	expect(hub.pages()).toBe(0);
	expect(cuts).toBe(1);
	expect(await page?.getReader().read()).toMatchObject({ done: true });
	hub.close();
});

test('what is over is told to who comes back, and not to who is new; an id of another board gets everything', async () => {
	const hub = openHub(() => ({ about: 'board' }));
	hub.tell('one', { is: 'one' });
	hub.tell('two', { is: 'two' });
	const reader = hub.open(undefined)?.getReader();
	if (!reader) throw new Error('refused');
	const id = /id: (.*)\.2$/m.exec(await text(reader))?.[1];
	hub.end('two', { is: 'gone' });
	const sent = async (lastId?: string) => {
		const again = hub.open(lastId)?.getReader();
		return again ? (await text(again)).match(/"is":"\w+"/g) : 'refused';
	};
	expect(await sent(`${id}.2`)).toEqual(['"is":"gone"']);
	expect(await sent()).toEqual(['"is":"one"']);
	expect(await sent(`${'0'.repeat(16)}.2`)).toEqual(['"is":"one"']);
	expect(await sent(`${id}.99`)).toEqual(['"is":"one"']);
	hub.close();
});
