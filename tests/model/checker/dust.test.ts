import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { door, lid } from './cart-sheet.ts';
import { changed, find, like, putAfter } from './draft.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';

const work = { face: door, stage: 'sand', grit: 320, place: null };
const sandedAfter = (which: ReturnType<typeof like>, day: Raw[] = cartDay()) =>
	putAfter(day, which, 'stage.done', work);
const says19 = (day: Raw[]) => foundIn(day).flatMap(found => (found.property === 19 ? [found.says] : []));

describe('property 19: no dusty or wet work while a checked gun waits', () => {
	const set = like('window.set', { face: lid, coat: 1 });
	const waits = (day: Raw[]) => [
		`sand on ${door} while the gun of line ${find(day, like('gun.checked')) + 1} waits`,
	];
	/** The lid was not sprayed after all, so that nothing is wet behind its pass. */
	const dry = (day: Raw[]) => changed(day, like('face.ended', { face: lid, coat: 1 }), { extent: 'none' });

	test('before its first start, and between two passes, be nothing wet there', () => {
		const first = sandedAfter(like('gun.checked', { size: 'full' }));
		expect(says19(first)).toEqual(waits(first));
		const between = dry(sandedAfter(set));
		expect(says19(between)).toEqual(waits(between));
		expect(says19(sandedAfter(set))).toEqual([`sand on ${door} beside wet ${lid}, 0.0 min after its coat`]);
	});

	test('a gun that is no longer known is none: the cap to be turned, a break, a fault, a pot begun', () => {
		expect(says19(dry(sandedAfter(like('gun.unknown', { why: 'cap-turn' }))))).toEqual([]);
		const causes: [string, Raw][] = [
			['break.began', { kind: 'hold', by: 'painter' }],
			['gun.unknown', { why: 'break' }],
			['fault.seen', { fault: 'spits', gun: true }],
			['batch.started', { batch: 'B', material: 'cart-green', ratio: {}, by: 'volume', make_mL: 400 }],
		];
		for (const [type, fields] of causes)
			expect(says19(putAfter(dry(sandedAfter(set)), set, type, fields)), type).toEqual([]);
	});
});
