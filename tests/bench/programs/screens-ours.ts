import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import { runScreen } from '../../../src/screen/run.ts';
import type { Session } from '../../../src/screen/session-port.ts';
import { processPorts } from '../../../src/screen/show-day.ts';
import { viewOf } from '../../screen/views.ts';

/** The day's own screen over a day that only turns between two questions. */
let turned = false;
const session: Session = {
	tick() {},
	view: () => viewOf(turned ? 'trouble' : 'pattern'),
	answer() {
		turned = !turned;
		return { accepted: true };
	},
	onChange: () => () => {},
	break() {},
	close() {},
};

await runScreen(
	{ ...processPorts(), session },
	{ layout: layoutOf('us', null), oneKey: false, style: 'half' },
);
