/** Which tests `npm run quick` leaves out: whole rooms, and single files of others. */

/** Start processes (the built program, npm, a bundler), or prove things of very many states. */
const rooms = ['cli', 'model', 'package', 'terminal'];

const files = (room: string, ...names: string[]) => names.map(name => `tests/${room}/${name}.test.ts`);

/** Start processes of their own: a bundler, a speaker, one that is killed. */
const starting = [
	...files('day/file', 'full', 'kill', 'lock'),
	...files('settings', 'kept'),
	...files('trigger', 'feed'),
	...files('voice', 'sounder', 'speaker'),
];

/** Play the example day, or days and sheets by the hundred. */
const long = [
	...files(
		'day',
		'any-day',
		'asked-sheets',
		'example-day',
		'own-sheet',
		'presses',
		'sentences',
		'two-days',
		'two-guns-days',
	),
	...files('day/file', 'read'),
	...files('job', 'old-sheets', 'own-sheet'),
	...files('planted', 'planted'),
	...files('plan', 'exact-solver', 'fewest-pots', 'order-brute-force', 'rehearsed'),
	...files('report', 'film-map', 'one-count', 'page'),
	...files('screen', 'kinds', 'never-missing', 'painter', 'screens'),
	...files('trace', 'many-days', 'planted-causes'),
	...files('voice', 'every-sentence', 'sentences'),
	...files('report', 'pictures'),
];

export const wholeFiles = [...starting, ...long];

/** As patterns of files. */
export const whole = [...rooms.map(room => `tests/${room}/**`), ...wholeFiles];

/** @param file from the project's folder */
export const isQuick = (file: string): boolean =>
	!rooms.some(room => file.startsWith(`tests/${room}/`)) && !wholeFiles.includes(file);
