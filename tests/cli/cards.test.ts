import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { cardsCommand } from '../../src/cli/cards.ts';
import { runCommand } from '../../src/cli/command.ts';
import { cardsPage, reachOn_mm } from '../../src/report/cards.ts';
import { cardCount, cardOf } from '../../src/trade/pattern-cards.ts';

const folder = mkdtempSync(join(tmpdir(), 'fanwise-cards-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function ran(...argv: string[]) {
	let out = '';
	let err = '';
	const status = await runCommand(cardsCommand, argv, {
		stdout: { write: text => (out += text) },
		stderr: { write: text => (err += text) },
		env: {},
	});
	return { status, out, err };
}

test('the page holds every card, each with its number and letters, at its size in mm', async () => {
	const path = join(folder, 'cards.html');
	const { status, out } = await ran('-o', path);
	expect([status, out]).toEqual([0, expect.stringContaining('24 cards')]);
	const page = readFileSync(path, 'utf8');
	expect(page.match(/<svg /g)).toHaveLength(cardCount);
	expect(page).toContain('width="190mm"');
	expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
	for (let number = 1; number <= cardCount; number++) expect(page).toContain(`Pattern card ${number}:`);
	if (process.platform !== 'win32') expect(statSync(path).mode & 0o777).toBe(0o600);
});

test('the letters stand as far from the middle as the cross reaches, whatever the fan', () => {
	for (const fan_mm of [100, 150]) {
		const reach = reachOn_mm(fan_mm, 'a4');
		expect(reach).toBe(0.4 * fan_mm);
		const page = cardsPage([cardOf(3) ?? expect.fail('no card 3')], fan_mm, 'a4');
		const at = [...page.matchAll(/<text x="([\d.]+)" y="[\d.]+" font-size="[\d.]+">[A-Z]</g)].map(([, x]) =>
			Number(x),
		);
		expect(Math.max(...at) - Math.min(...at)).toBeCloseTo(2 * reach, 1);
	}
});

test('a fan larger than the paper gets the largest cross that fits on it', () => {
	expect(reachOn_mm(600, 'a4')).toBeLessThan(95);
	expect(reachOn_mm(600, 'letter')).toBeGreaterThan(reachOn_mm(600, 'a4'));
});

test('one card as an SVG; a file that is there is not written over', async () => {
	const path = join(folder, 'card.svg');
	expect(await ran('-o', path, '--card', '7')).toMatchObject({
		status: 0,
		out: expect.stringContaining('one card'),
	});
	expect(readFileSync(path, 'utf8')).toMatch(/^<svg xmlns=/);
	expect(await ran('-o', path, '--card', '7')).toMatchObject({
		status: 2,
		err: expect.stringMatching(/: the card was not written; .*--force/),
	});
});

test.each([
	[[], '-o FILE is missing'],
	[['-o', 'cards.pdf'], '.html'],
	[['-o', 'cards.svg'], '--card N'],
	[['-o', 'cards.html', '--card', '99'], 'no card'],
	[['-o', 'cards.html', '--fan', '2 m'], 'between 50 mm'],
	[['-o', 'cards.html', '--paper', 'a3'], 'a4 or letter'],
])('%j is refused with what to do', async (argv, says) => {
	expect(await ran(...argv)).toMatchObject({ status: 2, err: expect.stringContaining(says) });
});

test('as JSON the cards carry their letters and the reach of the cross', async () => {
	const { out } = await ran('--json', '--fan', '8 in');
	expect(JSON.parse(out)).toMatchObject({ reach_mm: 76.61, cards: { length: cardCount, 0: { number: 1 } } });
});
