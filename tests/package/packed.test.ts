import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';

/** Packed and installed in an empty folder, from the tarball alone: no registry is asked. */
const shop = mkdtempSync(join(tmpdir(), 'fanwise-shop-'));
const installed = join(shop, 'node_modules', 'fanwise');

/** The environment of a plain shell: what an npm that runs these tests wants is not wanted here. */
const env = {
	...Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name))),
	FANWISE_HOME: join(shop, 'home'),
};

function npm(args: string[], cwd: string) {
	const { status, stdout, stderr } = spawnSync('npm', args, { cwd, encoding: 'utf8', env });
	if (status !== 0) throw new Error(`npm ${args.join(' ')}: ${stderr}`);
	return stdout;
}

const npx = (...args: string[]) =>
	spawnSync('npx', ['--no-install', 'fanwise', ...args], {
		cwd: shop,
		encoding: 'utf8',
		env,
	});

beforeAll(() => {
	npm(['pack', '--ignore-scripts', '--silent', '--pack-destination', shop], '.');
	const [tarball = ''] = readdirSync(shop).filter(name => name.endsWith('.tgz'));
	npm(['init', '--yes'], shop);
	npm(['install', '--offline', '--no-audit', '--no-fund', `./${tarball}`], shop);
});

test('it brings nothing else along, and holds its manual and the licences of what it is made of', () => {
	expect(readdirSync(join(shop, 'node_modules')).filter(name => !name.startsWith('.'))).toEqual(['fanwise']);
	const { man } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8')) as { man: string };
	expect(readFileSync(join(installed, man), 'utf8')).toMatch(/^\.TH FANWISE 1/);
	const licences = readFileSync(join(installed, 'dist', 'licences.txt'), 'utf8');
	for (const name of ['conf', 'ink', 'react', 'xstate', 'yaml', 'zod'])
		expect(licences).toMatch(
			new RegExp(`^${name} \\d+\\.\\d+\\.\\d+: MIT|^${name} \\d+\\.\\d+\\.\\d+: ISC`, 'm'),
		);
	for (const path of ['src', 'tests', 'dist/finish.js', 'dist/meta.json'])
		expect([path, existsSync(join(installed, path))]).toEqual([path, false]);
});

test('npx runs it: the version, the example sheet checked, its day rehearsed', () => {
	expect(npx('--version').stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
	expect(npx('example', 'cart.yaml').status).toBe(0);
	expect(npx('check', 'cart.yaml').status).toBe(0);
	const rehearsed = npx('rehearse', 'cart.yaml', '--plain');
	expect({ status: rehearsed.status, stderr: rehearsed.stderr }).toEqual({ status: 0, stderr: '' });
	expect(rehearsed.stdout).toMatch(/\(.*\): SUPPLIED AIR/);
});

test('a list changed where it is installed is asked as it stands there', () => {
	const list = join(installed, 'checklists', 'before-spraying.yaml');
	const asPacked = readFileSync(list, 'utf8');
	const first = () => JSON.parse(npx('rehearse', 'cart.yaml', '--json').stdout.split('\n')[0] ?? '').say;
	expect(asPacked).toContain(`say: "${first()}"`);
	writeFileSync(list, asPacked.replace(first(), 'Mask: what is on you?'));
	expect(first()).toBe('Mask: what is on you?');
	writeFileSync(list, 'list: before-spraying');
	expect(npx('check', 'cart.yaml').status).not.toBe(0);
	writeFileSync(list, asPacked);
});

test('whether colour is asked for or refused, none is written', () => {
	for (const colour of [{ NO_COLOR: '1' }, { FORCE_COLOR: '3' }]) {
		const { stdout } = spawnSync('npx', ['--no-install', 'fanwise', 'demo'], {
			cwd: shop,
			encoding: 'utf8',
			env: { ...env, ...colour },
		});
		expect(stdout).toContain('Day closed.');
		expect(stdout).not.toContain('\u001b');
	}
});
