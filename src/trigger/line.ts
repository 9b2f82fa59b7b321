/** One pull, or one letting go, of the gun's trigger as the air line reports it. */
export type Pull = {
	on: boolean;
	/** Since the recording began, ms; a line that is heard live has none. */
	after_ms: number | null;
};

/**
 * Reads one line: `{"trigger":"on"}` or `{"trigger":"off"}`, in a recording with `after_ms`; other keys are passed over.
 * @returns null where it is no such line
 */
export function parsePull(line: string): Pull | null {
	let read: unknown;
	try {
		read = JSON.parse(line);
	} catch {
		return null;
	}
	if (typeof read !== 'object' || read === null || !('trigger' in read)) return null;
	const { trigger } = read;
	if (trigger !== 'on' && trigger !== 'off') return null;
	const after_ms = 'after_ms' in read ? read.after_ms : null;
	if (after_ms === null) return { on: trigger === 'on', after_ms };
	if (typeof after_ms !== 'number' || !Number.isFinite(after_ms) || after_ms < 0) return null;
	return { on: trigger === 'on', after_ms };
}

/** A pull as a line of a recording. */
export const pullLine = (on: boolean, after_ms: number, at: string): string =>
	`${JSON.stringify({ trigger: on ? 'on' : 'off', after_ms: Math.round(after_ms), at })}\n`;

const longest = 1000;

/**
 * Cuts what arrives in pieces into lines. A line without an end in sight is handed on in one piece when it grows too
 * long, and its rest is dropped.
 */
export function lineCutter(onLine: (line: string) => void): (piece: Uint8Array) => void {
	const decoder = new TextDecoder();
	let held = '';
	let dropping = false;
	return piece => {
		const [first = '', ...rest] = (held + decoder.decode(piece, { stream: true })).split(/\r?\n/);
		const whole = rest.length > 0 ? [first, ...rest.slice(0, -1)] : [];
		held = rest.at(-1) ?? first;
		for (const line of whole) {
			if (!dropping && line.trim() !== '') onLine(line);
			dropping = false;
		}
		if (held.length <= longest) return;
		if (!dropping) onLine(held);
		held = '';
		dropping = true;
	};
}
