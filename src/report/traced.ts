/** What a report shows of a trace. */
export type Shown = {
	bracket: { from: string; to: string };
	exposed: readonly { face: string; coat: number }[];
	candidates: readonly { code: string; at: string; reasons: readonly string[] }[];
	inspect: readonly { face: string; coat: number }[];
	missing: readonly string[];
};

/** A fault on a face and what came of tracing it; `why`: it starts no trace, or none could be made. */
export type Traced = { fault: string; face: string; coat: number; trace: Shown | null; why: string | null };
