import { expect, test } from 'vitest';
import { trace } from '../../src/trace/trace.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { builtIn } from './built-in.ts';

const toLevel = (day: ReturnType<typeof rehearsed>, component: string) => {
	day.until(({ state, say }) => state === 'mix.pour' && say.toLowerCase().startsWith(component));
	const wanted = Number(day.line().do?.[0]?.to);
	day.toState(`mix.level.${component}`);
	return wanted;
};
const ratioIn = (day: ReturnType<typeof rehearsed>) =>
	trace(
		{ days: [day.records()], fault: 'stays-soft', face: 'left door/edges', coat: 1 },
		builtIn,
	).candidates.find(({ code }) => code === 'wrong-ratio');

test.each(['hardener', 'reducer'])(
	'too much %s that was made good with the others is no wrong ratio',
	component => {
		const day = rehearsed();
		day.send(`number ${toLevel(day, component) + 30}`);
		day.toEnd();
		expect(day.ofType('batch.poured').map(({ found }) => found)).toContain('over');
		expect(ratioIn(day)?.reasons.join() ?? '').not.toMatch(/was over/);
	},
);

test('the same pour in a batch whose others were not topped up is one', () => {
	const day = rehearsed();
	day.send(`number ${toLevel(day, 'hardener') + 30}`);
	day.toEnd();
	const [letter] = day.ofType('batch.started').map(({ batch }) => batch);
	let isOver = false;
	const left = day.records().filter(record => {
		if (record.type !== 'batch.poured' || record.batch !== letter) return true;
		const isTopped = isOver && record.component === 'base';
		isOver ||= record.found === 'over';
		return !isTopped;
	});
	const found = trace({ days: [left], fault: 'stays-soft', face: 'left door/edges', coat: 1 }, builtIn);
	const ratio = found.candidates.find(({ code }) => code === 'wrong-ratio');
	expect(ratio?.reasons.join()).toMatch(/hardener was over/);
});
