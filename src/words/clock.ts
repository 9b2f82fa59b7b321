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
