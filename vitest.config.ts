import { defineConfig } from 'vitest/config';

const report = process.env.VITEST_REPORT;

export default defineConfig({
	test: {
		include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
		testTimeout: 60_000,
		reporters: report ? ['default', 'json'] : ['default'],
		...(report && { outputFile: { json: report } }),
	},
});
