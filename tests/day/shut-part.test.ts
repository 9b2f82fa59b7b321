import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

const face = 'left door/edges';

/** Coat 2 broken off 20 s in, and left until the coat under it is in its lifting zone. */
function leftTooLong() {
	const day = rehearsed();
	day.until(line => line.state === 'spraying' && line.coat === 2 && line.face === face);
	day.send('wait 20 s', 'hold', 'wait 3 h');
	day.pick('back');
	day.pick('part');
	day.send('number 2');
	day.until(({ state }) => state.startsWith('edge'));
	return day;
}

test('a coat broken off is not finished where the coat under it is past its window: it is set aside', () => {
	const day = leftTooLong();
	expect(day.line()).toMatchObject({ state: 'edge.shut', face, coat: 2 });
	day.pick('set-aside');
	expect(day.ofType('part.setAside')).toMatchObject([{ faces: [face, 'left door/flat'] }]);
	expect(day.findings()).toEqual([]);
});

test('finished all the same, it is under a reason that marks it', () => {
	const day = leftTooLong();
	day.pick('go-on');
	day.pick('owner');
	day.until(line => line.state === 'spraying' && line.face === face);
	expect(day.ofType('face.started').at(-1)).toMatchObject({
		from: 'part',
		window: 'wait',
		overrides: ['window'],
	});
	expect(day.findings()).toEqual([]);
});

test('a coat laid on a sanded face and broken off is finished on it after its flash, no question asked', () => {
	const day = rehearsed();
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.send('hold', 'wait 10 h');
	day.pick('back');
	day.until(line => line.state === 'spraying' && line.face === face);
	day.send('wait 20 s', 'hold', 'wait 3 h');
	day.pick('back');
	day.pick('part');
	day.send('number 2');
	day.toState('edge');
	day.pick('wait-flash');
	day.until(line => line.state === 'spraying' && line.face === face);
	expect(day.ofType('face.started').at(-1)).toMatchObject({ from: 'part', window: 'sand', overrides: [] });
	expect(day.findings()).toEqual([]);
});
