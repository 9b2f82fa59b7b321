/** Every cause that is planted, in each of its forms. Each code is planted as often as any other: no list says how often they come. */
export const formsOf = {
	'fan-along-stroke': [''],
	'bad-pattern': [''],
	'pressure-off': ['low', 'high'],
	'no-hardener': [''],
	'wrong-ratio': ['hardener short', 'hardener over', 'reducer short', 'reducer over'],
	'wrong-can': ['reducer', 'hardener'],
	'viscosity-off': ['thick', 'thin'],
	'batch-too-old': [''],
	'air-out-of-limits': ['humid', 'cold', 'warm'],
	'air-line': [''],
	'gun-too-near': [''],
	'gun-too-far': [''],
	'film-too-heavy': [''],
	'film-too-light': [''],
	'face-missed': [''],
	'too-many-coats': [''],
	'coat-too-early': [''],
	'window-missed': [''],
	surface: [''],
	handling: [''],
	'not-stood': [''],
	'dirt-in-paint': [''],
} as const satisfies Record<string, readonly string[]>;

export type Code = keyof typeof formsOf;
export const isCode = (word: string): word is Code => word in formsOf;
export const codes: readonly Code[] = Object.keys(formsOf).filter(isCode);

/** A cause in one of its forms; '' where it has but one. */
export type Cause = { code: Code; form: string };
export type Spot = { face: string; coat: number };

export const spotKey = ({ face, coat }: Spot): string => `${face} ${coat}`;
