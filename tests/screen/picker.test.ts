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
	expect(texts()).toEqual(['topLeft COFFEE CART', 'topRight STOOLS']);
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
	expect(texts()).toEqual(['topLeft FOUR', 'topRight FIVE', 'bottomRight MORE']);
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
	expect(texts()).toEqual(['topLeft COFFEE CART']);
	press('COFFEE CART');
	press('BACK');
	expect(texts()).toEqual(['topLeft COFFEE CART']);
	expect(picker.picked()).toBeNull();
});

test('a job with work to come stands before the sheets, with what is due', () => {
	const jobs = [{ name: 'garden chairs', day: 'chairs.day', due: 'day 2: sand from 09:00' }];
	const picker = openPicker([sheet('stools')], [], now, () => '', '', jobs);
	const { press, texts } = at(picker);
	expect(texts()).toEqual(['topLeft GO ON WITH GARDEN CHAIRS', 'topRight STOOLS']);
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
	const jobs = [{ name: 'garden chairs', day: 'chairs.day', due: 'day 2: sand now' }];
	const picker = openPicker([], days, now, () => '', '', jobs);
	expect(at(picker).texts()).toEqual(['topLeft CARRY ON COFFEE CART', 'topRight GO ON WITH GARDEN CHAIRS']);
});
