import { expect, test } from 'vitest';
import { emptyEntry, erase, numberOf, typeNumber, typeText } from '../../src/screen/keys/entry.ts';

const typed = (text: string) => [...text].reduce(typeNumber, emptyEntry);

test('a number entry starts empty, and empty is no answer', () => {
	expect(numberOf(emptyEntry, {})).toEqual({ refused: 'empty' });
	expect(numberOf(typed('-'), {})).toEqual({ refused: 'not-a-number' });
});

test('a number is read as typed', () => {
	expect(numberOf(typed('21.5'), {})).toEqual({ number: 21.5 });
	expect(numberOf(typed('-4'), {})).toEqual({ number: -4 });
	expect(numberOf(typed('3.'), {})).toEqual({ number: 3 });
});

test('a second decimal point, a late minus and an overlong number are not taken', () => {
	expect(typed('2.1.5').text).toBe('2.15');
	expect(typed('2-1').text).toBe('21');
	expect(typed('.5').text).toBe('5');
	expect(typed('1234567890').text).toBe('12345678');
});

test('a number outside its limits is refused', () => {
	expect(numberOf(typed('9'), { min: 10, max: 40 })).toEqual({ refused: 'too-low' });
	expect(numberOf(typed('41'), { min: 10, max: 40 })).toEqual({ refused: 'too-high' });
	expect(numberOf(typed('10'), { min: 10, max: 40 })).toEqual({ number: 10 });
});

test('erasing takes back one character as people count them', () => {
	expect(erase({ text: 'a😀' }).text).toBe('a');
	expect(erase(emptyEntry)).toEqual(emptyEntry);
});

test('in words an underline writes the space that the space bar cannot', () => {
	expect([...'wet_rag'].reduce(typeText, emptyEntry).text).toBe('wet rag');
});
