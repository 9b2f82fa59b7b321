import { mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { isBuilt, stamp } from '../../src/package/sources.js';

test('what is built is told from what the sources have become: a letter, a name, a file more or less', () => {
	const project = mkdtempSync(join(tmpdir(), 'fanwise-project-'));
	const at = (name: string) => join(project, name);
	for (const folder of ['checklists', 'machines', 'src/day', 'dist'])
		mkdirSync(at(folder), { recursive: true });
	for (const name of ['package.json', 'package-lock.json', 'src/day/ask.ts'])
		writeFileSync(at(name), 'as it was');
	expect(isBuilt(project)).toBe(false);
	writeFileSync(...stamp(project));
	expect(isBuilt(project)).toBe(true);

	const changes: [what: () => void, back: () => void][] = [
		[
			() => writeFileSync(at('src/day/ask.ts'), 'as it is'),
			() => writeFileSync(at('src/day/ask.ts'), 'as it was'),
		],
		[
			() => renameSync(at('src/day/ask.ts'), at('src/day/say.ts')),
			() => renameSync(at('src/day/say.ts'), at('src/day/ask.ts')),
		],
		[() => writeFileSync(at('machines/day.ts'), ''), () => rmSync(at('machines/day.ts'))],
		[
			() => writeFileSync(at('package-lock.json'), 'another edition'),
			() => writeFileSync(at('package-lock.json'), 'as it was'),
		],
	];
	for (const [change, back] of changes) {
		change();
		expect(isBuilt(project)).toBe(false);
		back();
		expect(isBuilt(project)).toBe(true);
	}
	rmSync(at('dist'), { recursive: true });
	expect(isBuilt(project)).toBe(false);
});
