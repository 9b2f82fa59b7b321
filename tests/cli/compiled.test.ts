import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import * as nodeModule from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { program } from './run.ts';

const check = (cache: string) =>
	spawnSync(process.execPath, [program, 'check', 'checklists/example/coffee-cart.yaml'], {
		encoding: 'utf8',
		env: { ...process.env, XDG_CACHE_HOME: cache },
	});

test('what Node has compiled is kept in the user’s own folder, by a Node that can', () => {
	const cache = mkdtempSync(join(tmpdir(), 'fanwise-cache-'));
	for (let time = 0; time < 2; time++) expect(check(cache)).toMatchObject({ status: 0, stderr: '' });
	expect(readdirSync(cache)).toEqual('enableCompileCache' in nodeModule ? ['fanwise'] : []);
});

test('where it cannot be kept, the program runs all the same', () => {
	const file = join(mkdtempSync(join(tmpdir(), 'fanwise-cache-')), 'file');
	writeFileSync(file, '');
	expect(check(file)).toMatchObject({ status: 0, stderr: '' });
});
