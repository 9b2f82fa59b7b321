import { defineConfig } from 'vitest/config';

const report = process.env.VITEST_REPORT;

export default defineConfig({
	test: {
		// What wants a real browser runs by `npm run look`, never by `npm test`.
		include: process.env.LOOK ? ['tests/**/*.look.ts'] : ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
		globalSetup: 'tests/tidy.ts',
		testTimeout: 60_000,
		hookTimeout: 60_000,
		reporters: report ? ['default', 'json'] : ['default'],
		...(report && { outputFile: { json: report } }),
	},
});
