import { mkdtempSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { changeSetting, readSettings } from '../../src/settings/kept.ts';

const folder = () => mkdtempSync(join(tmpdir(), 'fanwise-settings-'));

test('an empty folder has the standard settings', () => {
	expect(readSettings(folder())).toMatchObject({ settings: { by: 'face', settle_s: 10 }, trouble: null });
});

test('a change is kept, in a file that is the owner’s alone', () => {
	const at = folder();
	expect(changeSetting(at, 'by', 'stretch')).toMatchObject({ ok: true });
	expect(readSettings(at).settings.by).toBe('stretch');
	expect(statSync(join(at, 'settings.json')).mode & 0o777).toBe(0o600);
});

test.each([
	['settle_s', 2, 'settle_s: found "2"; 10 or more wanted'],
	['checkAge_min', 99, 'checkAge_min: found "99"; 60 or less wanted'],
	['margin_C', 'warm', 'margin_C: found "warm"; a number wanted'],
	['voice', 1, 'voice: found "1"; true or false wanted'],
	['by', 'strech', 'by: found "strech"; allowed: face, stretch; nearest: stretch'],
	['learned', 'pedal', 'learned: found "pedal"; what fanwise keys writes wanted'],
	['by', '\u001b[2J', 'by: found "<U+001B>[2J"; allowed: face, stretch; nearest: face'],
])('what is wrong with a value is said in one line: %s %j', (key, value, says) => {
	expect(changeSetting(folder(), key, value)).toEqual({ ok: false, message: says });
});

test('a value under its floor, or of a setting that is none, changes nothing', () => {
	const at = folder();
	changeSetting(at, 'by', 'stretch');
	const before = readFileSync(join(at, 'settings.json'), 'utf8');
	for (const [key, value] of [
		['settle_s', 2],
		['margin_C', Number.NaN],
		['by', 'whatever'],
		['__proto__', {}],
		['constructor', 1],
		['pattern', false],
	] as const)
		expect(changeSetting(at, key, value)).toMatchObject({ ok: false });
	expect(JSON.parse(readFileSync(join(at, 'settings.json'), 'utf8'))).toEqual(JSON.parse(before));
});

test.each([
	['{ not json', /no JSON/],
	['{"settle_s": 1}', /settle_s/],
	['{"colour": "green"}', /colour/],
	['[1, 2]', /put aside/],
	['{"by": null}', /by/],
])('a bad file (%s) is put aside whole, said, and the standard is used', (text, says) => {
	const at = folder();
	writeFileSync(join(at, 'settings.json'), text);
	const { settings, trouble } = readSettings(at);
	expect(settings.by).toBe('face');
	expect(trouble).toMatch(says);
	const aside = readdirSync(at).find(name => name.includes('set-aside'));
	expect(readFileSync(join(at, aside ?? ''), 'utf8')).toBe(text);
	expect(readSettings(at).trouble).toBe(null);
});
