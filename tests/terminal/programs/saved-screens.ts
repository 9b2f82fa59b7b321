import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import { runScreen } from '../../../src/screen/run.ts';
import { processPorts } from '../../../src/screen/show-day.ts';
import { savedViews } from '../../screen/saved.ts';

/** Shows each kept view in turn in the terminal it was started in: the next one at every SIGUSR2. */

const views = Object.values(savedViews());
let at = 0;
let changed = () => {};
process.on('SIGUSR2', () => {
	at++;
	changed();
});

await runScreen(
	{
		...processPorts(),
		session: {
			tick() {},
			view() {
				const view = views[at];
				if (!view) throw new Error(`there is no view ${at}`);
				return view;
			},
			answer: () => ({ accepted: false }),
			onChange(listener) {
				changed = listener;
				return () => {};
			},
			break() {},
			close() {},
		},
	},
	{ layout: layoutOf('us', null), oneKey: false, style: 'half' },
);
