import { spawnSync } from 'node:child_process';
import {
	chmodSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	statSync,
	writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { standardSettings } from '../../src/day/standard-settings.ts';
import { changeSetting, readSettings } from '../../src/settings/kept.ts';

const folder = () => mkdtempSync(join(tmpdir(), 'fanwise-settings-'));

test('an empty folder has the standard settings', () => {
	expect(readSettings(folder())).toMatchObject({ settings: { by: 'auto', settle_s: 10 }, trouble: null });
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
	['by', 'strech', 'by: found "strech"; allowed: auto, face, stretch; nearest: stretch'],
	['learned', 'pedal', 'learned: found "pedal"; what fanwise keys writes wanted'],
	['by', '\u001b[2J', 'by: found "<U+001B>[2J"; allowed: auto, face, stretch'],
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
	['{"learned":{"blocks":{}}}', /learned\.topLeft: found "nothing"; a list wanted/],
	['{"__proto__": {"by": "stretch"}}', /__proto__/],
	['', /no JSON/],
	['\u0000', /not a text file/],
	['['.repeat(100_000), /no JSON|settings file|wanted/],
])('a bad file (%s) is put aside whole, said, and the standard is used', (text, says) => {
	const at = folder();
	writeFileSync(join(at, 'settings.json'), text);
	const { settings, trouble } = readSettings(at);
	expect(settings.by).toBe('auto');
	expect(trouble).toMatch(says);
	const aside = readdirSync(at).find(name => name.includes('set-aside'));
	expect(readFileSync(join(at, aside ?? ''), 'utf8')).toBe(text);
	expect(readSettings(at).trouble).toBe(null);
});

test('what is no file, or may not be moved, is said in one line, and the standard is used', () => {
	const at = folder();
	mkdirSync(join(at, 'settings.json'));
	expect(readSettings(at)).toMatchObject({
		settings: standardSettings,
		trouble: expect.stringMatching(/is a folder/),
	});
	const pipe = folder();
	spawnSync('mkfifo', [join(pipe, 'settings.json')]);
	expect(readSettings(pipe).trouble).toMatch(
		/is not an ordinary file: .*\. It was put aside as .*; the standard/,
	);
	const large = folder();
	writeFileSync(join(large, 'settings.json'), ' '.repeat(5_000_000));
	expect(readSettings(large).trouble).toMatch(/is larger than 4 MB/);
});

/** Files in a folder that cannot be changed, not by the one user who may do anything either. */
const sealed = (text: string) => {
	const at = folder();
	writeFileSync(join(at, 'settings.json'), text);
	const mounted = spawnSync('mount', ['--bind', '-o', 'ro', at, at]).status === 0;
	if (mounted) spawnSync('mount', ['-o', 'remount,bind,ro', at]);
	onTestFinished(() => void (mounted && spawnSync('umount', ['-l', at])));
	if (!mounted) chmodSync(at, 0o500);
	return at;
};

test('on a disk that can only be read a change is refused in one line, and a bad file left where it is', () => {
	const good = sealed('{"by":"stretch"}');
	expect(changeSetting(good, 'by', 'face')).toEqual({
		ok: false,
		message: expect.stringMatching(/settings\.json: it was not written; [^\n]+$/),
	});
	expect(readSettings(good).settings.by).toBe('stretch');
	const bad = sealed('{ not json');
	expect(readSettings(bad)).toMatchObject({
		settings: standardSettings,
		trouble: expect.stringMatching(
			/^[^\n]*: it is no JSON\. It could not be put aside: [^\n]+; the standard settings are used$/,
		),
	});
	expect(changeSetting(bad, 'by', 'face')).toMatchObject({ ok: false });
});
