import { defineConfig } from 'vitest/config';

const report = process.env.VITEST_REPORT;

export default defineConfig({
	test: {
		// A real browser is looked at by `npm run look`, never by `npm test`.
		include: process.env.LOOK ? ['tests/**/*.look.ts'] : ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
		testTimeout: 60_000,
		reporters: report ? ['default', 'json'] : ['default'],
		...(report && { outputFile: { json: report } }),
	},
});
