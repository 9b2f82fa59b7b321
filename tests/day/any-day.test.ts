import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

/** What a day throws in between: breaks, wrong keys, numbers out of the blue. */
const odd = fc.constantFrom(
	...['hold', 'kill', 'hangup', 'sleep 2 min', 'clock 5 min', 'wait 3 s', 'wait 40 s', 'wait 8 min'],
	...['top-left', 'top-right', 'bottom-left', 'bottom-right', 'number 100', 'number 25', 'text because'],
);
const interruptions = fc.array(fc.record({ after: fc.nat(25), line: odd }), { maxLength: 25 });

test('whatever comes between, no day ends in an error, every file passes the checker, and the day can be closed', () => {
	fc.assert(
		fc.property(fc.boolean(), interruptions, (stretch, between) => {
			const day = rehearsed({ settings: { by: stretch ? 'stretch' : 'face' } });
			const play = (count: number) => {
				for (let step = 0; step < count; step++) {
					const next = day.painter.answer(day.line());
					if (next !== null) day.send(next);
				}
			};
			for (const { after, line } of between) {
				play(after);
				day.send(line);
			}
			expect(day.findings()).toEqual([]);
			day.toEnd();
			expect(day.findings()).toEqual([]);
		}),
		{ numRuns: 60 },
	);
});
