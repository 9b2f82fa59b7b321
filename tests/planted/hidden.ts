import type { Cause, Spot } from './causes.ts';

/** What really is, on the bench and on the parts: the program never sees it, and no key tells it by itself. */

export type Pot = {
	letter: string;
	/** What went in of each, of what was wanted. */
	hardener: number;
	reducer: number;
	/** What was poured out of a wrong can. */
	wrongCan: 'none' | 'reducer' | 'hardener';
	/** How long it runs out of the cup, of what it should. */
	seconds: number;
	stood: boolean;
	strained: boolean;
	/** It has thickened in the pot before its time. */
	gone: boolean;
};

export type Bench = {
	horns: 'as told' | 'turned';
	pattern: 'even' | 'one-sided';
	/** Of the pressure wanted. */
	pressure: number;
	airLine: 'dry' | 'foul';
	air: { C: number; humidity: number };
};

export type Pass = Spot & {
	at: string;
	/** Place among the passes of the day, from 0. */
	nth: number;
	letters: string[];
	bench: Bench;
	pots: Pot[];
	/** Of the distance and of the film wanted, by the hand. */
	distance: number;
	film: number;
	/** What the coat went on: what is under it was ready, too wet, or shut. */
	under: 'ready' | 'wet' | 'shut';
	isClean: boolean;
	wasTouched: boolean;
	/** How often the coat really went over the face. */
	times: number;
};

export const freshPot = (letter: string): Pot => ({
	letter,
	hardener: 1,
	reducer: 1,
	wrongCan: 'none',
	seconds: 1,
	stood: true,
	strained: true,
	gone: false,
});

/** By how much a thing is off before it counts as a cause, as a share. This file's own choice. */
const off = { pressure: 0.12, hardener: 0.12, reducer: 0.25, seconds: 0.15, distance: 0.2, film: 0.25 };

/** Where blush is likely: FAA-H-8083-31 ch. 8, 80 %, 60 and 95 °F (seen in a mirror). */
const fair = { humidity: 0.8, low_C: 15.6, high_C: 35 };

function ofPot({ hardener, reducer, wrongCan, seconds, stood, strained, gone }: Pot): (Cause | null)[] {
	const ratio = (form: string): Cause => ({ code: 'wrong-ratio', form });
	return [
		hardener < 0.1 ? { code: 'no-hardener', form: '' } : null,
		hardener >= 0.1 && hardener < 1 - off.hardener ? ratio('hardener short') : null,
		hardener > 1 + off.hardener ? ratio('hardener over') : null,
		reducer < 1 - off.reducer ? ratio('reducer short') : null,
		reducer > 1 + off.reducer ? ratio('reducer over') : null,
		wrongCan === 'none' ? null : { code: 'wrong-can', form: wrongCan },
		seconds > 1 + off.seconds ? { code: 'viscosity-off', form: 'thick' } : null,
		seconds < 1 - off.seconds ? { code: 'viscosity-off', form: 'thin' } : null,
		stood ? null : { code: 'not-stood', form: '' },
		strained ? null : { code: 'dirt-in-paint', form: '' },
		gone ? { code: 'batch-too-old', form: '' } : null,
	];
}

function ofBench({ horns, pattern, pressure, airLine, air }: Bench): (Cause | null)[] {
	const outside = (form: string): Cause => ({ code: 'air-out-of-limits', form });
	return [
		horns === 'turned' ? { code: 'fan-along-stroke', form: '' } : null,
		pattern === 'one-sided' ? { code: 'bad-pattern', form: '' } : null,
		pressure < 1 - off.pressure ? { code: 'pressure-off', form: 'low' } : null,
		pressure > 1 + off.pressure ? { code: 'pressure-off', form: 'high' } : null,
		airLine === 'foul' ? { code: 'air-line', form: '' } : null,
		air.humidity > fair.humidity ? outside('humid') : null,
		air.C < fair.low_C ? outside('cold') : null,
		air.C > fair.high_C ? outside('warm') : null,
	];
}

function ofHand({ distance, film, times, under, isClean, wasTouched }: Pass): (Cause | null)[] {
	const plain = (is: boolean, code: Cause['code']): Cause | null => (is ? { code, form: '' } : null);
	return [
		plain(distance < 1 - off.distance, 'gun-too-near'),
		plain(distance > 1 + off.distance, 'gun-too-far'),
		plain(film > 1 + off.film, 'film-too-heavy'),
		plain(film < 1 - off.film, 'film-too-light'),
		plain(times === 0, 'face-missed'),
		plain(times > 1, 'too-many-coats'),
		plain(under === 'wet', 'coat-too-early'),
		plain(under === 'shut', 'window-missed'),
		plain(!isClean, 'surface'),
		plain(wasTouched, 'handling'),
	];
}

/** What was wrong with a pass, by what really was: nothing of what was meant or keyed goes in. */
export function wrongWith(pass: Pass): Cause[] {
	const all = [...ofBench(pass.bench), ...pass.pots.flatMap(ofPot), ...ofHand(pass)];
	return all.filter(cause => cause !== null);
}
