import { spawn } from 'node:child_process';
import { setTimeout as pause } from 'node:timers/promises';
import { expect, onTestFinished, test } from 'vitest';
import { example, folder, program } from './run.ts';

test.runIf(process.platform !== 'win32')(
	'a stopped program hears of that before anything falls due, and counts from before it',
	async () => {
		const child = spawn(process.execPath, [program, 'spray', example, '--plain'], {
			env: { ...process.env, FANWISE_HOME: folder() },
		});
		onTestFinished(() => void child.kill('SIGKILL'));
		let text = '';
		child.stdout.setEncoding('utf8').on('data', (piece: string) => {
			text += piece;
		});
		const until = async (words: string) => {
			for (let tries = 0; tries < 300 && !text.includes(words); tries++) await pause(100);
			expect(text).toContain(words);
		};
		await until('ALL WIPED');
		await pause(1500);
		child.kill('SIGSTOP');
		await pause(6000);
		child.kill('SIGCONT');
		await until('GO ON');
		child.stdin.end();
		const away_s = Number(/The program stood still\. Away (\d+) s\./.exec(text)?.[1]);
		expect(away_s).toBeGreaterThanOrEqual(6);
		expect(away_s).toBeLessThan(20);
	},
	60_000,
);
