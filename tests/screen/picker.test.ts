import { expect, test } from 'vitest';
import type { Corner } from '../../src/day/view.ts';
import { openPicker, type SheetToPick } from '../../src/screen/picker.ts';

const now = () => '2027-03-02T08:00:00.000Z';
const sheet = (name: string, openDay: string | null = null): SheetToPick => ({
	path: `${name}.yaml`,
	name,
	openDay,
});

function at(picker: ReturnType<typeof openPicker>) {
	const texts = () =>
		Object.entries(picker.session.view().corners).map(([corner, { text }]) => `${corner} ${text}`);
	const press = (text: string) => {
		const found = Object.entries(picker.session.view().corners).find(([, choice]) => choice.text === text);
		if (!found) throw new Error(`no corner says ${text}: ${texts().join(', ')}`);
		picker.session.answer({ key: found[0] as Corner });
	};
	return { texts, press };
}

test('a sheet is chosen, then whether it is sprayed or rehearsed', () => {
	const picker = openPicker([sheet('coffee cart'), sheet('stools')], [], now);
	const { press, texts } = at(picker);
	expect(texts()).toEqual(['topLeft COFFEE CART', 'topRight STOOLS', 'bottomLeft NEW']);
	press('COFFEE CART');
	expect(picker.session.over?.()).toBe(false);
	press('REHEARSE');
	expect(picker.picked()).toEqual({ what: 'rehearse', sheet: 'coffee cart.yaml' });
	expect(picker.session.over?.()).toBe(true);
});

test('more than four turn pages in the last corner, round to the first again', () => {
	const picker = openPicker(
		['one', 'two', 'three', 'four', 'five'].map(name => sheet(name)),
		[],
		now,
	);
	const { press, texts } = at(picker);
	expect(texts()).toEqual(['topLeft ONE', 'topRight TWO', 'bottomLeft THREE', 'bottomRight MORE']);
	press('MORE');
	expect(texts()).toEqual(['topLeft FOUR', 'topRight FIVE', 'bottomLeft NEW', 'bottomRight MORE']);
	press('MORE');
	expect(texts()[0]).toBe('topLeft ONE');
});

test('an open day is carried on, and its sheet never begun a second time', () => {
	const days = [{ path: 'a.day', name: 'coffee cart', began: '2 March' }];
	const direct = openPicker([sheet('coffee cart', 'a.day')], days, now);
	at(direct).press('CARRY ON COFFEE CART');
	expect(direct.picked()).toEqual({ what: 'carry-on', day: 'a.day' });
	const bySheet = openPicker([sheet('coffee cart', 'a.day')], days, now);
	at(bySheet).press('COFFEE CART');
	expect(at(bySheet).texts()).not.toContain('topLeft SPRAY');
	at(bySheet).press('CARRY ON');
	expect(bySheet.picked()).toEqual({ what: 'carry-on', day: 'a.day' });
});

test('hold and back lead to the first question', () => {
	const picker = openPicker([sheet('coffee cart')], [], now);
	const { press, texts } = at(picker);
	press('COFFEE CART');
	picker.session.answer({ key: 'hold' });
	expect(texts()).toEqual(['topLeft COFFEE CART', 'topRight NEW']);
	press('COFFEE CART');
	press('BACK');
	expect(texts()).toEqual(['topLeft COFFEE CART', 'topRight NEW']);
	expect(picker.picked()).toBeNull();
});

test('a job with work to come stands before the sheets, with what is due', () => {
	const jobs = [{ name: 'garden chairs', day: 'chairs.day', due: 'day 2: sand from 09:00', isLate: false }];
	const picker = openPicker([sheet('stools')], [], now, () => '', '', jobs);
	const { press, texts } = at(picker);
	expect(texts()).toEqual(['topLeft GO ON WITH GARDEN CHAIRS', 'topRight STOOLS', 'bottomLeft NEW']);
	const { say, lines } = picker.session.view();
	expect([say, lines[0]]).toEqual([
		'Job to go on with: choose it, or a sheet.',
		'garden chairs, day 2: sand from 09:00.',
	]);
	press('GO ON WITH GARDEN CHAIRS');
	expect(picker.picked()).toEqual({ what: 'go-on', day: 'chairs.day' });
});

test('a day left open stands before a job to go on with', () => {
	const days = [{ path: 'a.day', name: 'coffee cart', began: '2 March' }];
	const jobs = [{ name: 'garden chairs', day: 'chairs.day', due: 'day 2: sand now', isLate: false }];
	const picker = openPicker([], days, now, () => '', '', jobs);
	expect(at(picker).texts()).toEqual([
		'topLeft CARRY ON COFFEE CART',
		'topRight GO ON WITH GARDEN CHAIRS',
		'bottomLeft NEW',
	]);
});

test('a new job may be asked for, last of all; where nothing else is there, it is said', () => {
	const picker = openPicker([], [], now);
	expect(at(picker).texts()).toEqual(['topLeft NEW']);
	expect(picker.session.view().say).toBe('No job sheet here: NEW asks for one.');
	at(picker).press('NEW');
	expect(picker.picked()).toEqual({ what: 'new' });
});

test('a job whose window was missed says LATE in its corner, though two others have the lines', () => {
	const job = (name: string, isLate: boolean) => ({
		name,
		day: `${name}.day`,
		due: 'day 2: sand now',
		isLate,
	});
	const jobs = [job('doors', true), job('chairs', false), job('stools', true)];
	const picker = openPicker([], [], now, () => 'Words read from 2.0 m.', '', jobs);
	expect(at(picker).texts()).toEqual([
		'topLeft LATE: GO ON WITH DOORS',
		'topRight GO ON WITH CHAIRS',
		'bottomLeft LATE: GO ON WITH STOOLS',
		'bottomRight NEW',
	]);
	expect(picker.session.view().lines).toEqual([
		'Words read from 2.0 m.',
		'doors, day 2: sand now.',
		'chairs, day 2: sand now.',
	]);
});

test('what is due is said of the jobs on the page, not of those on another', () => {
	const jobs = ['one', 'two', 'three', 'four'].map(name => ({
		name,
		day: name,
		due: 'day 2',
		isLate: false,
	}));
	const picker = openPicker([], [], now, () => '', '', jobs);
	expect(picker.session.view().lines).toEqual(['one, day 2.', 'two, day 2.', 'three, day 2.']);
	at(picker).press('MORE');
	expect(picker.session.view().lines[0]).toBe('four, day 2.');
});

test('a sheet found wrong while the picker is up keeps its corner, says so by its file, and shows its errors when chosen', () => {
	const picker = openPicker([sheet('chairs1'), sheet('stools')], [], now);
	let told = 0;
	picker.session.onChange(() => told++);
	picker.cannotBeUsed('chairs1.yaml', {
		file: 'chairs1.yaml',
		why: 'cannot be used, 14 errors, first in line 4',
	});
	expect(told).toBe(1);
	expect(at(picker).texts()).toEqual(['topLeft CHAIRS1.YAML', 'topRight STOOLS', 'bottomLeft NEW']);
	expect(picker.session.view().lines[0]).toBe('chairs1.yaml: cannot be used, 14 errors, first in line 4.');
	at(picker).press('CHAIRS1.YAML');
	expect(picker.picked()).toEqual({ what: 'mend', sheet: 'chairs1.yaml' });
});
