import { defineConfig, mergeConfig } from 'vitest/config';
import all from '../vitest.config.ts';
import { whole } from './kinds-of-test.ts';

/** What `npm run quick` runs of the tests: in one process, since each reads the program anew. */
export default mergeConfig(all, defineConfig({ test: { exclude: whole, maxWorkers: 1 } }));
