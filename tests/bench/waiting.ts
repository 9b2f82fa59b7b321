import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { builtProgram, root } from './built.ts';
import { type Figure, under } from './figure.ts';
import { openPty, pause } from './in-pty.ts';

const wait_s = 60;
/** Of Linux, as nearly every build of it has it. */
const ticksASecond = 100;

/** Seconds of processor that a process has used, from the system's own account of it. */
function processor_s(pid: number): number {
	const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
	return (Number(fields[11]) + Number(fields[12])) / ticksASecond;
}

/** A minute of a flash wait in a terminal: what it takes of the processor and writes to the terminal. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(root, '.bench-'));
	const day = await openPty([await builtProgram('waiting.ts', folder, 'ours')], 'WAIT', { cwd: root });
	try {
		await pause(3000);
		const [used, written] = [processor_s(day.pid), day.bytes()];
		await pause(wait_s * 1000);
		const core = ((processor_s(day.pid) - used) / wait_s) * 100;
		const kB_per_s = (day.bytes() - written) / 1000 / wait_s;
		return [
			under(`${wait_s} s of waiting: share of a core`, '%', core, 1),
			under(`${wait_s} s of waiting: to the terminal`, 'kB/s', kB_per_s, 2),
		];
	} finally {
		day.kill();
		rmSync(folder, { recursive: true, force: true });
	}
}
