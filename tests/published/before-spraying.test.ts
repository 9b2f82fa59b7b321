import { describe, expect, test } from 'vitest';
import type { Checklist, ListName } from '../../src/job/checklist.ts';
import { loadLists } from '../../src/job/lists.ts';

/** What is asked before spraying and at the gun, as published rules have it, in the lists that the program comes with. */

async function listed(name: ListName): Promise<Checklist['items']> {
	const loaded = await loadLists({ lists: [] }, 'sheet.yaml');
	const items = loaded.ok ? loaded.lists.find(({ list }) => list === name)?.items : undefined;
	if (!items) throw new Error(`the list ${name} does not load`);
	return items;
}

async function item(name: ListName, code: string) {
	const found = (await listed(name)).find(one => one.code === code);
	if (!found) throw new Error(`${name} does not ask ${code}`);
	const answers = Object.fromEntries((found.answers ?? []).map(one => [one.code, one.passes]));
	return { ...found, answers, said: `${found.say} ${found.why ?? ''}` };
}

test('nine items at most before spraying, and none of them can be passed over with a reason', async () => {
	const items = await listed('before-spraying');
	expect(items.length).toBeLessThanOrEqual(9);
	expect(items.filter(({ overridable }) => overridable)).toEqual([]);
});

/** Read at 2.5 words a second, sentence and reason, ten seconds to look, one to key: this project's own figures, no source. */
test('they are read, looked at and keyed in three minutes, and in little more where every reason is read', async () => {
	const items = await listed('before-spraying');
	const wordsIn = (texts: (string | null)[]) => texts.join(' ').split(/\s+/).length;
	const time_s = items.length * 11 + wordsIn(items.map(({ say }) => say)) / 2.5;
	expect(time_s).toBeLessThanOrEqual(180);
	expect(time_s + wordsIn(items.map(({ why }) => why)) / 2.5).toBeLessThanOrEqual(210);
});

describe('the air that is breathed', () => {
	/**
	 * 29 CFR 1910.134(i)(5) and (i)(7), the latter quoted in an interpretation of 1981, corrected 1998: the intake kept from
	 * foul air, and an alarm on an oiled compressor.
	 */
	test('flow at the hose, the alarm and the intake are read; none of them failing passes', async () => {
		const { said, answers } = await item('before-spraying', 'supply');
		expect(said).toMatch(/flow at the hose, alarm, intake/);
		expect(said).toMatch(/Nothing runs at the intake\. An oiled compressor has a carbon monoxide alarm/);
		expect(answers).toEqual({ flows: 'yes', low: 'no', alarm: 'no', filter: 'unless-isocyanate' });
	});

	/** HSE, motor vehicle repair pages: nobody in the area without breathing gear while mist hangs. */
	test('nobody in the area is without gear', async () => {
		expect((await item('before-spraying', 'mask')).said).toMatch(/on you, and on everybody inside\?/);
	});
});

/**
 * 29 CFR 1910.107(b)(5)(i), its velocity cleared up in STD 01-05-010: a gauge or an alarm. That a tissue tells less is common
 * practice, no source.
 */
test.each(['before-spraying', 'gun-check'] as const)(
	'%s: the extract is read on its gauge against the shop’s clean value, by a tissue only where there is none',
	async list => {
		const { say, answers } = await item(list, 'extractor');
		expect(say).toMatch(/^Extractor.*: gauge .*clean mark; no gauge, .*tissue\. How\?$/);
		expect(answers).toEqual({ clean: 'yes', loaded: 'no', pulled: 'yes', weak: 'no' });
		expect((await item('before-spraying', 'extractor')).why).toMatch(/A tissue is the weaker sign/);
	},
);

describe('fire', () => {
	/**
	 * 29 CFR 1910.107(m)(1), from memory, and 1917.153(c)(7): two-part coatings in a sprinklered area. Extinguisher and way
	 * out: 1910.107(f) and 1910.37, from memory.
	 */
	test('the protected area, the extinguisher and the way out are asked apart from who knows', async () => {
		const { say, answers } = await item('before-spraying', 'fire');
		expect(say).toMatch(/sprinkler or as your code has it, extinguisher, way out\?/);
		expect(answers).toEqual({ there: 'yes', missing: 'no' });
		const help = await item('before-spraying', 'help');
		expect(help.said).toMatch(
			/who knows that you spray, and until what hour\?.*A message with the hour is enough\./,
		);
		expect(help.said).not.toMatch(/extinguisher|way out/i);
	});

	/** 29 CFR 1910.107(c), California Title 8 §5449(b); hot work, 1910.252(a)(2), from memory. */
	test('the walk names hot work in the whole shop, flame heaters, and the screen', async () => {
		const { said, answers } = await item('before-spraying', 'ignition');
		expect(said).toMatch(/whole shop, this screen.*Welding, grinding, flame heaters anywhere/);
		expect(answers).toEqual({ nothing: 'yes', something: 'no', inside: 'no' });
	});
});

/** 29 CFR 1910.107(c)(9), paragraph second-hand; hook, painter and hose: common practice, no source. */
test('the earth of part, painter and hose is followed; what takes no clip is earthed by its hook or rack', async () => {
	const { said, answers } = await item('before-spraying', 'earth');
	expect(said).toMatch(/from part or hook, hose and you.*Wood and plastic take no clip/);
	expect(answers).toEqual({ clipped: 'yes', hook: 'yes', loose: 'no' });
});

/** 85 dB(A): 29 CFR 1910.95, from memory; about 93 dB(A) while spraying, a trade noise survey. */
test('ear plugs are said where the painter suits up, and asked nowhere', async () => {
	expect((await item('before-spraying', 'skin')).why).toMatch(/^Ear plugs in/);
	const asked = (await Promise.all([listed('before-spraying'), listed('gun-check')])).flat();
	expect(asked.filter(({ say }) => /ear plugs/i.test(say ?? ''))).toEqual([]);
});
