/**
 * Seeds by use. The rules of the trace were tuned on `tuning` alone; `unseen` was first run when they stood, and
 * nothing was changed to suit it.
 */
export const tuning = { from: 1, count: 400 };
export const unseen = { from: 500_001, count: 1000 };
