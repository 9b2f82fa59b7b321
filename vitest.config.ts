import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/longest-first.ts';

const report = process.env.VITEST_REPORT;

export default defineConfig({
	test: {
		include: ['tests/**/*.test.ts'],
		globalSetup: 'tests/tidy.ts',
		setupFiles: 'tests/no-process.ts',
		// Every file in a process of its own would read the program, Ink and all, once more.
		isolate: false,
		// Some files wait for a terminal: beside them there is time for others, on two cores too.
		maxWorkers: Math.max(2, availableParallelism() - 1),
		sequence: { sequencer: LongestFirst },
		testTimeout: 60_000,
		hookTimeout: 60_000,
		reporters: report ? ['default', 'json'] : ['default'],
		...(report && { outputFile: { json: report } }),
	},
});
