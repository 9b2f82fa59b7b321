import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

test('a reason to go on in bad air ends with the next air reading: it is asked for again', () => {
	const day = rehearsed();
	const { air } = day.painter.world;
	air.humidity = 0.87;
	day.toState('air.no');
	day.pick('go-on');
	day.pick('test-piece');
	air.humidity = 0.97;
	day.toState('mix.begin');
	day.send('wait 5 h');
	day.until(() => day.ofType('air.read').length === 2);
	expect(day.line().state).toBe('air.no');
	day.pick('go-on');
	day.pick('test-piece');
	day.toAsk('spraying');
	expect(day.ofType('face.started')[0]).toMatchObject({ facts: { air: 'out' }, overrides: ['air'] });
	expect(day.findings()).toEqual([]);
});

test('a reason to go on in bad air is not carried over to good air', () => {
	const day = rehearsed();
	const { air } = day.painter.world;
	air.humidity = 0.87;
	day.toState('air.no');
	day.pick('go-on');
	day.pick('test-piece');
	air.humidity = 0.5;
	day.toState('mix.begin');
	day.send('wait 5 h');
	day.toEnd();
	expect(day.ofType('face.started').flatMap(({ overrides }) => overrides)).toEqual([]);
	expect(day.findings()).toEqual([]);
});

test('a reason not to wait holds for the wait, and not for the sanding that hours later stands in its place', () => {
	const day = rehearsed();
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	const { face } = day.line();
	day.pick('sooner');
	day.pick('data-sheet');
	day.send('hold', 'wait 10 h');
	day.pick('back');
	day.toState('prep.sand');
	day.until(line => line.state === 'spraying' && line.face === face);
	expect(day.ofType('stage.done')).toContainEqual(expect.objectContaining({ face, stage: 'sand' }));
	expect(day.ofType('face.started').at(-1)).toMatchObject({ face, coat: 2, window: 'sand' });
	expect(day.findings()).toEqual([]);
});
