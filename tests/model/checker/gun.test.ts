import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { door, lid } from './cart-sheet.ts';
import { changed, find, like, putAfter, shifted, without } from './draft.ts';
import type { Raw } from './lines.ts';
import { expectFound, foundIn, type Mutilation } from './mutilated.ts';

const matched = (feature: string) => like('reading.taken', { feature, matched: true });
const checkOf = (size: string) => like('gun.checked', { size });
const numberOf = (day: Raw[], n: number) => Number(day[n]?.check);

/** Without a whole check, from its beginning to its passing. */
function withoutCheck(day: Raw[], size: string, nth: number): Raw[] {
	const check = numberOf(day, find(day, checkOf(size), nth));
	return day.filter(record => record.type === 'face.started' || record.check !== check);
}

/** A check passes over from where it stands to before the record that it answers. */
function begunBefore(day: Raw[], nth: number, which: ReturnType<typeof like>, cause = 0): Raw[] {
	const check = numberOf(day, find(day, checkOf('full'), nth));
	const began = find(day, like('check.began', { check }));
	const [record] = day.splice(began, 1);
	const at = find(day, which, cause);
	const { at: instant, mono, run } = day[at] ?? {};
	return day.toSpliced(at, 0, { ...record, at: instant, mono, run });
}

const unchecked: Mutilation[] = [
	[
		'the check after the flash wait is missing',
		day => withoutCheck(day, 'full', 1),
		/full check owed.*a wait/,
	],
	[
		'the check after the visitor is missing',
		day => withoutCheck(day, 'full', 1),
		/left door\/edges starts without the full check owed.*a break/,
		{ broken: 'part' },
	],
	['the first check of the day is missing', day => withoutCheck(day, 'full', 0), /the day begins/],
	[
		'only a short check follows a wait',
		day => {
			const n = find(day, checkOf('full'), 1);
			const check = numberOf(day, n);
			const began = find(day, like('check.began', { check }));
			return day.with(n, { ...day[n], size: 'short' }).with(began, { ...day[began], size: 'short' });
		},
		/full check owed.*a wait/,
	],
	[
		'a check begun as short passes as full',
		day => changed(day, checkOf('short'), { size: 'full' }),
		/begun as short/,
	],
	[
		'a check is begun before the wait it answers',
		day => begunBefore(day, 1, like('wait.began')),
		/full check owed/,
	],
	[
		'a check never begun is passed',
		day => without(day, like('check.began', { list: 'gun-check' })),
		/never begun/,
	],
	[
		'a break inside a check leaves it standing',
		day => {
			const broken = putAfter(day, matched('batch'), 'break.began', { kind: 'hold', by: 'painter' }, 2);
			return putAfter(
				broken,
				like('break.began', { kind: 'hold' }),
				'break.ended',
				{ kind: 'hold', by: 'painter' },
				1,
			);
		},
		/full check owed.*a break/,
	],
	[
		'the clocks part by a minute before a face and nobody says so',
		day => {
			const from = find(day, like('face.started', { face: lid, coat: 2 }));
			return day.map((record, n) => (n < from ? record : { ...record, mono: Number(record.mono) + 60_000 }));
		},
		/the clocks parted/,
	],
	[
		'a face late to end is followed by the next without a check',
		day => putAfter(day, like('face.started', { face: lid, coat: 1 }), 'face.late', { face: lid, coat: 1 }),
		/left door\/edges starts without the full check.*ran late/,
	],
	['the run goes up and no check follows', day => restarted(day), /started again/],
	['ready comes 4 s after coming back', day => hurried(day), /ready within 10 s/, { broken: 'part' }],
];

function restarted(day: Raw[]): Raw[] {
	const from = find(day, like('face.started', { face: lid, coat: 2 }));
	return day.map((record, n) => (n < from ? record : { ...record, run: 2, mono: Number(record.mono) }));
}

function hurried(day: Raw[]): Raw[] {
	const back = find(day, like('break.ended'));
	const base = day[back];
	const early = (record: Raw, n: number) => ({
		...record,
		at: new Date(Date.parse(String(base?.at)) + (n - back) * 300).toISOString(),
		mono: Number(base?.mono) + (n - back) * 300,
	});
	const ready = find(day, checkOf('full'), 1);
	return day.map((record, n) => (n > back && n <= ready ? early(record, n) : record));
}

describe('property 1: a passed full check lies between any break and the next face', () => {
	test.each(unchecked)('%s', (...mutilation) => expectFound(1, mutilation));

	const unread: Mutilation[] = [
		['the batch letter was not read', day => without(day, matched('batch')), /no fitting batch letter/],
		[
			'the breathing gear was not read',
			day => without(day, matched('breathing'), 1),
			/breathing gear was not read/,
		],
		['the pattern was not read', day => without(day, matched('pattern')), /no fitting pattern/],
		[
			'the batch read is not in the cup',
			day => changed(day, matched('batch'), { value: 'B' }),
			/batch read was B/,
		],
		['the gauge was far off', day => changed(day, matched('gauge'), { value: 150 }), /gauge read 150/],
		[
			'a reading that differed is the last',
			day => changed(day, matched('gauge'), { matched: false }),
			/gauge differed and no fresh reading/,
		],
		[
			'an attempt is not counted',
			day => changed(day, matched('gauge'), { attempt: 1 }),
			/attempt 1, due is 2/,
			{ misread: { gauge: 1 } },
		],
		[
			'a reading belongs to another check',
			day => changed(day, matched('batch'), { check: 1 }),
			/no fitting batch/,
		],
		[
			'the batch was read after the pattern',
			day =>
				putAfter(day, matched('pattern'), 'reading.taken', {
					...day[find(day, matched('batch'))],
					type: 'reading.taken',
				}),
			/batch was read after the pattern/,
		],
	];
	test.each(unread)('a check passes though %s', (...mutilation) => expectFound(1, mutilation));

	test('a whole check moved in time only is still sound', () => {
		expect(foundIn(shifted(cartDay(), like('check.began'), 60, 1))).toEqual([]);
	});
});

describe('property 2: the fan lies across the stroke, as the last pattern showed it', () => {
	const along: Mutilation[] = [
		[
			'the short check of the cap turn is missing',
			day => withoutCheck(day, 'short', 0),
			/fan along its stroke/,
		],
		[
			'the pattern of the turned cap is read as the old one',
			day => changed(day, matched('pattern'), { value: 'tall', wanted: 'tall' }, 1),
			/left door\/edges starts with the fan along/,
		],
		[
			'the wrong pattern passes for a match',
			day => changed(day, matched('pattern'), { value: 'wide' }),
			/wanted was tall/,
		],
		[
			'a round pattern passes',
			day => changed(day, matched('pattern'), { value: 'round', wanted: 'round' }),
			/no pattern/,
		],
		[
			'the check says other horns than were shown',
			day => changed(day, like('gun.checked'), { horns: 'upright' }),
			/passed as upright/,
		],
		[
			'the check says another tilt than the sheet',
			day => changed(day, like('gun.checked'), { tilt: 90 }),
			/at 90°/,
		],
		[
			'the letters of the card are those of the other fan',
			day => changed(day, matched('card'), { value: 'FM' }),
			/counter lid\/top starts with the fan along/,
			{ cards: true },
		],
		[
			'no card is kept beside its letters',
			day => changed(day, matched('card'), { card: undefined }),
			/no pattern/,
			{ cards: true },
		],
		[
			'a stretch is started with the cap turned',
			day =>
				changed(changed(day, matched('pattern'), { value: 'wide', wanted: 'wide' }), like('gun.checked'), {
					horns: 'upright',
				}),
			/starts with the fan along/,
			{ stretch: true },
		],
	];
	test.each(along)('%s', (...mutilation) => expectFound(2, mutilation));
});

describe('property 4: knowledge of the gun ends with each cause', () => {
	const before = like('face.started', { face: lid, coat: 2 });
	const put = (type: string, fields: Raw) => (day: Raw[]) => {
		const n = find(day, before) - 1;
		return putAfter(day, (_, at) => at === n, type, fields);
	};
	const set = { horns: null, pressure_kPa: null, fanHeight_mm: null, fluid: null };
	const causes: Mutilation[] = [
		['the cap is turned', put('gun.set', { ...set, horns: 'upright' }), /the cap turned/],
		['a knob is opened', put('gun.set', { ...set, fluid: 'half a turn out' }), /a knob \(fluid\)/],
		[
			'the cup is filled again',
			put('batch.loaded', { batch: 'A', volume_mL: 50, refill: true }),
			/a refill from A/,
		],
		[
			'another batch goes in, called a refill',
			put('batch.loaded', { batch: 'B', volume_mL: 50, refill: true }),
			/full check owed.*batch B/,
		],
		['the gun spits', put('fault.seen', { fault: 'spit', gun: true }), /a gun fault/],
		...['cap-turn', 'knob', 'refill', 'age', 'batch', 'gun-fault', 'cleaned'].map(
			(why): Mutilation => [`the day itself says ${why}`, put('gun.unknown', { why }), new RegExp(why)],
		),
	];
	test.each(causes)('%s after the check and the face starts all the same', (...mutilation) =>
		expectFound(4, mutilation),
	);

	test('a face starts on a check older than twenty minutes', () => {
		const slow = shifted(cartDay(), before, 21 * 60);
		expect(foundIn(slow)).toContainEqual(
			expect.objectContaining({ property: 4, says: expect.stringMatching(/20 min/) }),
		);
	});

	test.each(['break', 'wait', 'restart', 'late'])(
		'a gun unknown for a %s owes a full check of property 1',
		why => {
			const found = foundIn(put('gun.unknown', { why })(cartDay()));
			expect(found).toContainEqual(
				expect.objectContaining({ property: 1, says: expect.stringMatching(why) }),
			);
		},
	);
});

describe('property 6: hold and wait lead to no face and no passed check', () => {
	const cut: Mutilation[] = [
		['nobody came back', day => without(day, like('break.ended')), /gun\.checked straight out of hold/],
		[
			'the wait and its check have no end',
			day => withoutCheck(without(day, like('wait.ended')), 'full', 1),
			/face\.started straight out of wait/,
		],
		[
			'a face starts in hold',
			day => putAfter(day, checkOf('full'), 'break.began', { kind: 'hold', by: 'painter' }),
			/face\.started straight out of hold/,
		],
	];
	test.each(cut)('%s', (...mutilation) => expectFound(6, mutilation));
});

describe('property 8: a day opened again stands in hold', () => {
	const killed = { killed: true, broken: 'part' } as const;
	const lost: Mutilation[] = [
		[
			'the new run does not begin with a break',
			day => without(day, like('break.began', { kind: 'restart' })),
			/run 2 does not begin in hold/,
			killed,
		],
		[
			'the new run begins with another kind of break',
			day => changed(day, like('break.began', { kind: 'restart' }), { kind: 'hold' }),
			/run 2 does not begin in hold/,
			killed,
		],
		[
			'what was done to the face is not asked',
			day => without(day, matched('last-face')),
			/left door\/edges was never asked/,
			killed,
		],
	];
	test.each(lost)('%s', (...mutilation) => expectFound(8, mutilation));
});

test('a check of the door is not a check of the lid when the fan is other', () => {
	const found = foundIn(withoutCheck(cartDay(), 'short', 0));
	expect(found.map(({ property }) => property)).toEqual(expect.arrayContaining([2, 4, 15]));
	expect(found.every(({ says }) => says.includes(door))).toBe(true);
});
