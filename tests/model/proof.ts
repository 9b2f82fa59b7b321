/** One line of what `npm run prove` prints: a property, how it was looked for, over how much, and what came of it. */
export type Proof = {
	property: string;
	how: string;
	size: string;
	verdict: 'holds' | 'fails';
	says: string[];
};
