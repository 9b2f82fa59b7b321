import { createRequire as banner } from 'node:module';
const require = banner(import.meta.url);

// tests/bench/waiting.ts
// tests/bench/built.ts
import { mkdtempSync, readFileSync, readFileSync as readFileSync2, rmSync } from 'node:fs';
import { join, join as join2 } from 'node:path';
import { build } from 'esbuild';

var root = process.cwd();
function flagsOfBuild() {
	const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
	const flags = String(scripts.build).matchAll(/--([\w-]+(?::[\w.-]+)?)(?:=("[^"]*"|'[^']*'|\S+))?/g);
	return Object.fromEntries([...flags].map(([, name = '', value]) => [name, value ?? true]));
}
async function builtProgram(program, folder) {
	const flags = flagsOfBuild();
	const outfile = join(folder, `${program.replace(/\.\w+$/, '')}.mjs`);
	await build({
		entryPoints: [join(root, 'tests/bench/programs', program)],
		outfile,
		bundle: true,
		platform: 'node',
		target: 'node20',
		format: 'esm',
		minify: flags.minify === true,
		minifySyntax: flags['minify-syntax'] === true,
		legalComments: 'none',
		define: { 'process.env.NODE_ENV': '"production"' },
		alias: { 'react-devtools-core': join(root, 'src/screen/no-devtools.cjs') },
		banner: {
			js: "import{createRequire as banner}from'node:module';const require=banner(import.meta.url);",
		},
	});
	return outfile;
}

// tests/bench/figure.ts
var under = (name, unit, ours, most) => ({
	name,
	unit,
	ours,
	against: { what: 'the most allowed', value: most },
	ratio: ours / most,
	limit: 1,
});

// tests/bench/in-pty.ts
import pty from '@lydell/node-pty';

var environment = (env = {}) => ({
	PATH: process.env.PATH ?? '',
	HOME: process.env.HOME ?? '',
	TERM: 'xterm-256color',
	LANG: 'C.UTF-8',
	...env,
});
var inPty = (words, { cwd = process.cwd(), env } = {}) =>
	pty.spawn(process.execPath, words, {
		cols: 80,
		rows: 24,
		name: 'xterm-256color',
		cwd,
		env: environment(env),
	});
var patience_ms = 2e4;
var pause = wait_ms => new Promise(done => setTimeout(done, wait_ms));
async function openPty(words, up, where = {}) {
	const child = inPty(words, where);
	let seen = '';
	let bytes = 0;
	let heard = _data => {};
	child.onData(data => {
		seen += data;
		bytes += Buffer.byteLength(data);
		heard(data);
	});
	const until = async (holds, what) => {
		for (const end = performance.now() + patience_ms; performance.now() < end; await pause(20))
			if (holds()) return;
		child.kill('SIGKILL');
		throw new Error(`${words.join(' ')}: not seen in ${patience_ms / 1e3} s: ${what}
${seen}`);
	};
	await until(() => seen.includes(up), up);
	return {
		pid: child.pid,
		/** Bytes written to the terminal so far. */
		bytes: () => bytes,
		type: keys => child.write(keys),
		/** Milliseconds from keys to the first bytes of the frame that follows, which must hold a text. */
		answer(keys, text = '') {
			return new Promise((resolve, reject) => {
				const late = setTimeout(() => reject(new Error(`no frame came after "${keys}"`)), patience_ms);
				const from = performance.now();
				heard = data => {
					if (!data.includes(text)) return;
					clearTimeout(late);
					resolve(performance.now() - from);
				};
				child.write(keys);
			});
		},
		kill: () => child.kill('SIGKILL'),
	};
}

// tests/bench/waiting.ts
var wait_s = 60;
var ticksASecond = 100;
function processor_s(pid) {
	const fields = readFileSync2(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
	return (Number(fields[11]) + Number(fields[12])) / ticksASecond;
}
async function measure() {
	const folder = mkdtempSync(join2(root, '.bench-'));
	const day = await openPty([await builtProgram('waiting.ts', folder)], 'WAIT', { cwd: root });
	try {
		await pause(3e3);
		const [used, written] = [processor_s(day.pid), day.bytes()];
		await pause(wait_s * 1e3);
		const core = ((processor_s(day.pid) - used) / wait_s) * 100;
		const kB_per_s = (day.bytes() - written) / 1e3 / wait_s;
		return [
			under(`${wait_s} s of waiting: share of a core`, '%', core, 1),
			under(`${wait_s} s of waiting: to the terminal`, 'kB/s', kB_per_s, 2),
		];
	} finally {
		day.kill();
		rmSync(folder, { recursive: true, force: true });
	}
}

export { measure };
