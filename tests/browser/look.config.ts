import { defineConfig } from 'vitest/config';

/** What wants a real browser: `npm run look`, never `npm test`. */
export default defineConfig({
	test: { include: ['tests/**/*.look.ts'], testTimeout: 60_000, hookTimeout: 60_000 },
});
