import { layoutOf } from '../../../src/screen/keys/layouts.ts';
import { runScreen } from '../../../src/screen/run.ts';
import { portOf } from '../../../src/screen/session-port.ts';
import { processPorts } from '../../../src/screen/show-day.ts';
import { playedDay } from './played-day.ts';

/** The example day in a wait whose word is counted by the second, shown, its clock going as clocks do. */
const day = await playedDay();
/** From here on the word is minutes and seconds. */
const counted_s = 600;
const left_s = () => (day.session.view().ask === 'wait' ? (day.session.view().timers[0]?.left_s ?? 0) : 0);
while (left_s() < counted_s) if (!day.step()) throw new Error('no wait was come to');
day.clock.forward((left_s() - counted_s + 5) * 1000);
day.session.tick();
await runScreen(
	{ ...processPorts(), session: portOf(day.session) },
	{ layout: layoutOf('us', null), oneKey: false, style: 'half' },
);
