import { isBuilt } from '../src/package/sources.js';

/**
 * The built program.
 * @throws Error where it is not built of the sources as they stand
 */
export function built(): string {
	if (!isBuilt('.')) throw new Error('dist is not built of these sources: npm run build');
	return 'dist/fanwise.js';
}
