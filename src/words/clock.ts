const kept = new Map<string, Intl.DateTimeFormat>();

function formatIn(zone: string, kind: 'clock' | 'date'): Intl.DateTimeFormat {
	const key = `${kind} ${zone}`;
	const known = kept.get(key);
	if (known) return known;
	const made =
		kind === 'clock'
			? new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZone: zone })
			: new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', timeZone: zone });
	kept.set(key, made);
	return made;
}

/** Clock time of an instant in a zone, `09:14`. */
export const clock = (ms: number, zone = 'UTC'): string => formatIn(zone, 'clock').format(ms);

/** Day of an instant in a zone, `2 March`. */
export const date = (ms: number, zone = 'UTC'): string => formatIn(zone, 'date').format(ms);

/** Clock time, with its date before it where that is not the day of another instant: `3 March 04:55`. */
export const clockOn = (ms: number, day_ms: number, zone = 'UTC'): string =>
	date(ms, zone) === date(day_ms, zone) ? clock(ms, zone) : `${date(ms, zone)} ${clock(ms, zone)}`;

/** How instants that are told together are said: with their dates where they do not all fall on one day. */
export function clocksOver(instants: readonly number[], zone = 'UTC'): (ms: number) => string {
	const [first = 0] = instants;
	const isOneDay = instants.every(ms => date(ms, zone) === date(first, zone));
	return ms => (isOneDay ? clock(ms, zone) : `${date(ms, zone)} ${clock(ms, zone)}`);
}
