import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

const withRun = () => {
	const day = rehearsed();
	day.until(({ state, face }) => state === 'spraying' && face === 'left door/flat');
	day.send('wait 55 s');
	day.pick('trouble');
	day.pick('wet-fault');
	day.pick('all');
	day.pick('run');
	day.pick('left door/flat');
	day.pick('set-part-aside');
	day.pick('back');
	return day;
};

test('a part with a run is set aside from the next coat, and the others go on', () => {
	const day = withRun();
	day.toEnd();
	expect(day.ofType('fault.seen')[0]).toMatchObject({ fault: 'run', face: 'left door/flat', coat: 1 });
	expect(day.ofType('part.setAside')[0]).toMatchObject({
		part: 'left door',
		faces: ['left door/edges', 'left door/flat'],
		why: 'run',
	});
	expect(day.ofType('face.started').map(({ face, coat }) => `${face} ${coat}`)).toEqual([
		'left door/edges 1',
		'left door/flat 1',
		'right door/flat 1',
		'right door/flat 2',
	]);
	expect(day.findings()).toEqual([]);
});

test('a fault on a coat broken off is a fault of that coat, once it is told how much is on', () => {
	const day = rehearsed();
	day.until(({ state, face, coat }) => state === 'spraying' && face === 'left door/flat' && coat === 2);
	day.send('wait 20 s');
	for (const code of ['trouble', 'wet-fault', 'part', 'cannot-tell', 'run', 'left door/flat', 'keep-on'])
		day.pick(code);
	expect(day.ofType('fault.seen')[0]).toMatchObject({ fault: 'run', face: 'left door/flat', coat: 2 });
});

test('its own line, set up, sand flat, clean, respray, is offered when due', () => {
	const day = withRun();
	day.until(({ state }) => state === 'finish');
	expect(day.line().lines.join(' ')).toContain('left door');
	day.pick('stay');
	expect(day.line().ask).toBe('wait');
	// Two days at 65 °F before sanding: common practice, no source. The shop is at 21 °C (70 °F) here.
	const due = day.line().timers.find(({ code }) => code === 'rework');
	expect((due?.left_s ?? 0) / 3600).toBeGreaterThan(36);
	day.send(`wait ${due?.left_s} s`);
	const steps: string[] = [];
	day.until(line => {
		if (line.state.startsWith('rework.')) steps.push(line.state);
		return line.ask === 'number' || steps.length > 5;
	});
	expect(steps).toEqual(['rework.set-up', 'rework.sand', 'rework.clean']);
	day.toEnd();
	expect(
		day
			.ofType('face.started')
			.filter(({ face, coat }) => face === 'left door/flat' && coat === 2)
			.map(({ window }) => window),
	).toEqual(['sand']);
	expect(
		day
			.ofType('rework.done')
			.map(({ step }) => step)
			.slice(-1),
	).toEqual(['respray']);
	expect(day.findings()).toEqual([]);
});

test('a part set aside after its last coat is resprayed only under an override that is logged', () => {
	const day = rehearsed();
	day.until(({ state, face, coat }) => state === 'spraying' && face === 'right door/flat' && coat === 2);
	day.send('wait 55 s');
	day.pick('finished');
	day.send('hold');
	day.pick('trouble');
	day.pick('wet-fault');
	day.pick('run');
	day.pick('right door/flat');
	day.pick('set-part-aside');
	day.pick('back');
	day.toState('finish');
	day.pick('stay');
	day.toEnd();
	expect(day.ofType('override.given')).toMatchObject([{ rule: 'coats', face: 'right door/flat', coat: 3 }]);
	expect(day.ofType('face.started').at(-1)).toMatchObject({
		face: 'right door/flat',
		coat: 3,
		overrides: ['coats'],
	});
	expect(day.findings()).toEqual([]);
});

test('an open item keeps its list open; an override has a reason and marks the faces sprayed under it', () => {
	const day = rehearsed();
	day.toState('list.before-spraying.extractor');
	day.pick('stopped');
	expect(day.line().ask).toBe('choose');
	expect(day.send('text  ').accepted).toBe(false);
	day.pick('ask-again');
	day.pick('stopped');
	day.pick('own-words');
	expect(day.line()).toMatchObject({ ask: 'text', state: 'override.extractor.words', events: [] });
	day.send('text booth fan is the shop door today');
	day.until(({ ask }) => ask === 'go');
	day.toEnd();
	expect(day.ofType('override.given')).toMatchObject([
		{ rule: 'extractor', reason: 'booth fan is the shop door today' },
	]);
	expect(day.ofType('face.started')[0]?.overrides).toEqual(['extractor']);
	expect(day.findings()).toEqual([]);
});

test('a coat over its recoat window asks for sanding, and the stage is recorded before it is sprayed', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 10 h');
	day.pick('back');
	const asked = day.until(({ state }) => state.startsWith('prep.'));
	expect(asked.say).toMatch(/sand with 400 grit/);
	day.toEnd();
	expect(day.ofType('stage.done').length).toBe(3);
	expect(day.ofType('face.started').at(-1)?.window).toBe('sand');
	expect(day.findings()).toEqual([]);
});

test('air outside the limits is a no; going on takes a reason, and is in every face sprayed under it', () => {
	const day = rehearsed();
	day.toState('air.airC');
	day.send('number 16', 'number 71', 'number 13');
	// Dew point 11 °C, margin about 2 °C: do not paint. Source: coating inspection training note.
	expect(day.line().state).toBe('air.no');
	expect(day.line().lines.join(' ')).toMatch(/dew point 10.7/);
	day.pick('go-on');
	day.pick('own-words');
	expect(day.pick('not').state).toBe('air.no');
	day.pick('go-on');
	day.pick('owner');
	day.toEnd();
	const first = day.ofType('face.started').filter(({ coat }) => coat === 1);
	expect(first.map(({ overrides }) => overrides)).toEqual([['air'], ['air'], ['air']]);
	expect(day.findings()).toEqual([]);
});

test('a surface hotter than the air may be is a no, and the reason says which', () => {
	const day = rehearsed();
	day.toState('air.airC');
	day.send('number 21', 'number 50', 'number 65', 'number 65');
	expect(day.line().state).toBe('air.no');
	expect(day.line().lines).toEqual(['Surface 65 °C is over the 35 °C allowed']);
	day.pick('read-again');
	day.send('number 21', 'number 50', 'number 34');
	expect(day.line().state).not.toMatch(/^air/);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('air is read again after four hours, and after a hold longer than half an hour', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 31 min');
	day.pick('back');
	expect(day.line().state).toBe('air.airC');
	day.toEnd();
	expect(day.ofType('air.read').length).toBe(2);
	expect(day.findings()).toEqual([]);
});

test('a tape tab that strings waits; the touch is asked again', () => {
	const day = rehearsed();
	day.toAsk('touch');
	day.pick('strings');
	expect(day.line()).toMatchObject({ ask: 'wait' });
	expect(day.line().timers[0]).toMatchObject({ code: 'touch', left_s: 300 });
	day.send('wait 5 min');
	expect(day.line().ask).toBe('touch');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('paint that stood past its flush time leaves the gun before anything else', () => {
	const day = rehearsed();
	day.toState('wait');
	day.send('hold', 'wait 61 min');
	expect(day.line().lines.join(' ')).toMatch(/then flush it/);
	day.pick('back');
	day.until(({ state }) => state === 'empty');
	expect(day.line().say).toMatch(/stood too long/);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});
