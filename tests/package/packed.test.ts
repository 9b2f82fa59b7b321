import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { built } from '../built.ts';

/** Packed, and installed in an empty folder and for a whole machine, from the tarball alone: no registry is asked. */
const shop = mkdtempSync(join(tmpdir(), 'fanwise-shop-'));
const installed = join(shop, 'node_modules', 'fanwise');
const machine = join(shop, 'machine');

/** The environment of a plain shell: what an npm that runs these tests wants is not wanted here. */
const env = {
	...Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name))),
	FANWISE_HOME: join(shop, 'home'),
};

/** @returns all that npm says */
function npm(...args: string[]): string {
	const { status, stdout, stderr } = spawnSync('npm', args, { cwd: shop, encoding: 'utf8', env });
	if (status !== 0) throw new Error(`npm ${args.join(' ')}: ${stderr}`);
	return stdout + stderr;
}

/** Runs the installed program as npx does, without npx. */
const fanwise = (args: string[], more: Record<string, string> = {}, input = '') =>
	spawnSync(join(shop, 'node_modules', '.bin', 'fanwise'), args, {
		cwd: shop,
		encoding: 'utf8',
		input,
		env: { ...env, ...more },
	});

const quiet = ['--offline', '--no-audit', '--no-fund'];
let said: string[];

beforeAll(() => {
	built();
	npm('pack', process.cwd(), '--ignore-scripts', '--silent');
	const tarball = `./${readdirSync(shop).find(name => name.endsWith('.tgz'))}`;
	npm('init', '--yes');
	said = [
		npm('install', ...quiet, tarball),
		npm('install', '--global', '--prefix', machine, ...quiet, tarball),
	];
});

test('npm has nothing to warn of: it installs one package, and none of its scripts', () => {
	for (const text of said) {
		expect(text).toMatch(/added 1 package/);
		expect(text).not.toMatch(/warn|script/i);
	}
});

test('it brings nothing else along, and holds the licences of what it is made of', () => {
	expect(readdirSync(join(shop, 'node_modules')).filter(name => !name.startsWith('.'))).toEqual(['fanwise']);
	const licences = readFileSync(join(installed, 'dist', 'licences.txt'), 'utf8');
	for (const name of ['conf', 'ink', 'react', 'xstate', 'yaml', 'zod'])
		expect(licences).toMatch(
			new RegExp(`^${name} \\d+\\.\\d+\\.\\d+: MIT|^${name} \\d+\\.\\d+\\.\\d+: ISC`, 'm'),
		);
	for (const path of ['src', 'tests', 'dist/sources.sha256'])
		expect([path, existsSync(join(installed, path))]).toEqual([path, false]);
});

test('installed for a whole machine, its manual page stands where `man` looks for it', () => {
	const page = readFileSync(join(machine, 'share', 'man', 'man1', 'fanwise.1'), 'utf8');
	expect(page).toMatch(/^\.TH FANWISE 1/);
});

test('npx runs it: the version, the example sheet checked, its day rehearsed', () => {
	expect(npm('exec', '--offline', '--', 'fanwise', '--version')).toMatch(/^\d+\.\d+\.\d+\n$/);
	expect(fanwise(['example', 'cart.yaml']).status).toBe(0);
	expect(fanwise(['check', 'cart.yaml']).status).toBe(0);
	const rehearsed = fanwise(['rehearse', 'cart.yaml', '--plain']);
	expect({ status: rehearsed.status, stderr: rehearsed.stderr }).toEqual({ status: 0, stderr: '' });
	expect(rehearsed.stdout).toMatch(/\(.*\): ALL WIPED/);
});

test('a list changed where it is installed is asked as it stands there', () => {
	const list = join(installed, 'checklists', 'before-spraying.yaml');
	const asPacked = readFileSync(list, 'utf8');
	/** Of the list, once all parts are wiped. */
	const first = () =>
		JSON.parse(fanwise(['rehearse', 'cart.yaml', '--json'], {}, 'top-left\n').stdout.split('\n')[1] ?? '')
			.say;
	expect(asPacked).toContain(`say: "${first()}"`);
	writeFileSync(list, asPacked.replace(first(), 'Mask: what is on you?'));
	expect(first()).toBe('Mask: what is on you?');
	writeFileSync(list, 'list: before-spraying');
	expect(fanwise(['check', 'cart.yaml']).status).not.toBe(0);
	writeFileSync(list, asPacked);
});

test('whether colour is asked for or refused, none is written', () => {
	for (const colour of [{ NO_COLOR: '1' }, { FORCE_COLOR: '3' }]) {
		const { stdout } = fanwise(['demo'], colour);
		expect(stdout).toContain('Day closed.');
		expect(stdout).not.toContain('\u001b');
	}
});
