import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { shelf, shortSheet } from '../job/chairs/long-form.ts';
import { folder, run } from './run.ts';

function filledHome() {
	const home = folder();
	cpSync(shelf, join(home, 'shelf'), { recursive: true });
	return home;
}

test('an empty shelf says where its files go, and is no mistake', () => {
	const home = folder();
	for (const args of [['shelf'], ['shelf', 'check']])
		expect(run(args, { home })).toMatchObject({
			status: 0,
			stdout: `The shelf is empty: put materials/NAME.yaml, guns/NAME.yaml and shop.yaml into ${join(home, 'shelf')}\n`,
		});
});

test('the shelf is listed, and sheets use it', () => {
	const home = filledHome();
	const { lines } = run(['shelf'], { home });
	expect(lines.map(line => line.replace(/\d{4}-\d{2}-\d{2}/, 'DATE').replaceAll(/ {2,}/g, ' | '))).toEqual([
		'material | grey epoxy | DATE | can be used',
		'material | moss green satin | DATE | can be used',
		'gun | large | DATE | can be used',
		'shop | the Pump Yard workshop | DATE | can be used',
	]);
	expect(run(['shelf', 'check'], { home })).toMatchObject({ status: 0, stderr: '' });
	expect(run(['check', shortSheet], { home }).stdout).toMatch(/Eight garden chairs: 16 parts, 32 faces/);
	expect(run(['check', shortSheet]).stderr).toMatch(/gun: found "large"; the shelf has no gun/);
});

test('what is wrong is counted in the list, said whole by check, and by name', () => {
	const home = filledHome();
	const epoxy = join(home, 'shelf/materials/grey-epoxy.yaml');
	const text = readFileSync(epoxy, 'utf8');
	writeFileSync(epoxy, text.replace('ratio: 1:1 by volume\n', '').replace('solids: 46%', 'solids: lots'));
	writeFileSync(join(home, 'shelf/materials/second.yaml'), text);
	const { lines } = run(['shelf'], { home });
	expect(lines[0]).toMatch(/grey epoxy .* cannot be used: 2 errors, first in line 1$/);
	const checked = run(['shelf', 'check', 'grey epoxy', '--json'], { home });
	expect(checked.status).toBe(2);
	expect(JSON.parse(checked.stdout)).toMatchObject({
		valid: false,
		errors: [
			{ line: 1, says: expect.stringMatching(/ratio is missing/) },
			{ line: 6, says: expect.stringMatching(/solids: found "lots"/) },
			{ line: 1, says: 'another file of the shelf has this name' },
		],
	});
	expect(run(['shelf', 'check', 'large'], { home })).toMatchObject({ status: 0 });
	expect(run(['shelf', 'check', 'grey epoxi'], { home }).stderr).toMatch(/nearest: grey epoxy$/m);
});

test('nothing that lies in the folder stops the list, and no name of it is obeyed by a terminal', () => {
	const home = filledHome();
	mkdirSync(join(home, 'shelf/guns/folder.yaml'));
	writeFileSync(join(home, 'shelf/guns/zero.yaml'), Buffer.from([0, 1, 2]));
	writeFileSync(join(home, 'shelf/guns/nameless.yaml'), 'pressure: 2 bar\n');
	writeFileSync(join(home, 'shelf/guns/wild.yaml'), 'gun: "wild \u001b[2J"\n');
	const { status, stdout, stderr } = run(['shelf'], { home });
	expect(status).toBe(0);
	expect(stdout).toMatch(/gun .*nameless\.yaml .* cannot be used/);
	expect(stderr).toMatch(/folder\.yaml:1:1: is a folder/);
	expect(stderr).toMatch(/zero\.yaml:1:1: is not a text file/);
	expect(stdout + stderr).not.toContain('\u001b');
});
