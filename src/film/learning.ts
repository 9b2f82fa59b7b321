/** A cup whose rest was read: what its faces were to take, and what they took, bursts and fixed losses taken off, mL. */
export type CupUse = { emitted_mL: number; used_mL: number; weighed: boolean };

/** What a shop's cups say of its use: the factor of the sheet's paint, and what of it stays unsure (one deviation of its logarithm). */
export type Use = { factor: number; unsure: number; cups: number };

/** What is unsure of a use beside the transfer, and from cup to cup, as shares. This project's own choices. */
const beside = 0.05;
const fromCupToCup = 0.1;
/** What a cup is read to, mL: by eye, and weighed. This project's own choices. */
const readingError_mL = { eye: 5, weighed: 0.5 };

/** What is unsure of the sheet's use before anything is measured: one deviation of its logarithm. */
export const unsureOf = (transfer: number, tolerance: number): number =>
	Math.hypot(tolerance / transfer, beside);

/**
 * The use that a shop's cups show, drawn towards the sheet's as long as they say little: k = (Σ used ÷ Σ emitted)^W.
 * @param prior what is unsure of the sheet's use, as `unsureOf`
 * @returns factor 1 and the prior where no cup was read
 */
export function shownUse(cups: readonly CupUse[], prior: number): Use {
	const emitted = cups.reduce((sum, cup) => sum + cup.emitted_mL, 0);
	if (emitted === 0) return { factor: 1, unsure: prior, cups: 0 };
	const used = cups.reduce((sum, cup) => sum + cup.used_mL, 0);
	const squares = cups.reduce(
		(sum, { emitted_mL, weighed }) =>
			sum +
			(fromCupToCup * emitted_mL) ** 2 +
			2 * (weighed ? readingError_mL.weighed : readingError_mL.eye) ** 2,
		0,
	);
	const weight = prior ** 2 / (prior ** 2 + squares / emitted ** 2);
	return {
		factor: (used / emitted) ** weight,
		unsure: prior * Math.sqrt(1 - weight),
		cups: cups.length,
	};
}
