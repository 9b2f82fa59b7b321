/** Air that is not read again is held for an hour, and then taken for so much warmer, or colder, an hour, at the most by `most_K`; this project's own. */
export const drift = { holds_h: 1, K_per_h: 1.5, most_K: 5 };
const slice_h = 1 / 12;

/** Time from so long after a reading until so long after it in slices, each as far off as it is at least; the last as long as it may be. */
export function slices(from_h: number, until_h: number): { long_h: number; off_K: number }[] {
	const still_h = drift.holds_h + drift.most_K / drift.K_per_h;
	const count = Math.max(0, Math.ceil((still_h - from_h) / slice_h));
	return Array.from({ length: count + 1 }, (_, n) => {
		const since_h = from_h + n * slice_h;
		const left_h = Math.max(0, until_h - since_h);
		const off_K = Math.max(0, since_h - drift.holds_h) * drift.K_per_h;
		return { long_h: n === count ? left_h : Math.min(slice_h, left_h), off_K: Math.min(drift.most_K, off_K) };
	}).filter(({ long_h }) => long_h > 0);
}
