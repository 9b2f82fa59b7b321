/**
 * Seeds by use. The rules of the trace were tuned on `tuning` alone; `unseen` was first run when they stood, and no
 * rule was changed after. Made-up days were made harder twice while tuning, never easier.
 */
export const tuning = { from: 1, count: 400 };
export const unseen = { from: 2_100_001, count: 1000 };
