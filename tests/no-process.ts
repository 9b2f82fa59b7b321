import childProcess from 'node:child_process';
import { syncBuiltinESMExports } from 'node:module';
import path from 'node:path';
import { afterAll, expect } from 'vitest';
import { isQuick } from './kinds-of-test.ts';

/** Set up for each file of tests: a quick one starts no process, for that takes longer than all that it asks. */

const real = { ...childProcess };
const refuse = (): never => {
	throw new Error('a quick test starts no process: name its file in tests/kinds-of-test.ts');
};
const refusing = {
	exec: refuse,
	execFile: refuse,
	/** On macOS a day's lock asks it for the life of a process. */
	execFileSync: (file: string, ...given: []) =>
		file === 'ps' ? real.execFileSync(file, ...given) : refuse(),
	execSync: refuse,
	fork: refuse,
	spawn: refuse,
	spawnSync: refuse,
};

function put(functions: object): void {
	Object.assign(childProcess, functions);
	syncBuiltinESMExports();
}

const file = path.relative(process.cwd(), expect.getState().testPath ?? '').replaceAll(path.sep, '/');
if (isQuick(file)) {
	put(refusing);
	afterAll(() => put(real));
}
