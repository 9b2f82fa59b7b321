import { plain } from './said.ts';

/** Instants as a report says them, in the zone of the day. */
export type Times = {
	zone: string;
	/** `09:14`. */
	clock(iso: string): string;
	/** `09:14:05`. */
	second(iso: string): string;
	/** `2 March 2027`. */
	date(iso: string): string;
	/** `09:14`, with the date before it where that is another than the day's. */
	moment(iso: string): string;
	/** Minutes that the zone is ahead of UTC. */
	ahead_min(iso: string): number;
};

/** A zone that this machine knows: the one named, else UTC. */
export const usableZone = (zone: string): string => {
	try {
		new Intl.DateTimeFormat('en', { timeZone: zone });
		return zone;
	} catch {
		return 'UTC';
	}
};

/**
 * How instants are said on a day.
 * @param zone IANA name, as the day file has it; one that this machine does not know becomes UTC, and says so
 * @param opened the instant that names the day
 */
export function timesOf(zone: string, opened: string): Times {
	const timeZone = usableZone(zone);
	const format = new Intl.DateTimeFormat('en-GB', {
		timeZone,
		year: 'numeric',
		month: 'short',
		day: 'numeric',
		hour: '2-digit',
		minute: '2-digit',
		second: '2-digit',
		hourCycle: 'h23',
	});
	const long = new Intl.DateTimeFormat('en-GB', {
		timeZone,
		weekday: 'long',
		day: 'numeric',
		month: 'long',
		year: 'numeric',
	});
	const parts = (iso: string) =>
		Object.fromEntries(format.formatToParts(new Date(iso)).map(({ type, value }) => [type, value]));
	const clock = (iso: string) => {
		const { hour, minute } = parts(iso);
		return `${hour}:${minute}`;
	};
	const dayMonth = (iso: string) => {
		const { day, month, year } = parts(iso);
		return { short: `${day} ${month}`, year };
	};
	const home = dayMonth(opened);
	return {
		zone: timeZone === zone ? plain(zone) : `UTC (the day's own zone, ${plain(zone)}, is not known here)`,
		clock,
		second: iso => `${clock(iso)}:${parts(iso).second}`,
		date: iso => long.format(new Date(iso)),
		moment: iso => {
			const { short, year } = dayMonth(iso);
			if (short === home.short && year === home.year) return clock(iso);
			return `${short}${year === home.year ? '' : ` ${year}`} ${clock(iso)}`;
		},
		ahead_min: iso => {
			const { year, hour, minute } = parts(iso);
			const date = new Date(iso);
			const numeric = new Intl.DateTimeFormat('en-GB', { timeZone, month: 'numeric', day: 'numeric' })
				.formatToParts(date)
				.reduce<Record<string, string>>((sum, { type, value }) => Object.assign(sum, { [type]: value }), {});
			const local = Date.UTC(
				Number(year),
				Number(numeric.month) - 1,
				Number(numeric.day),
				Number(hour),
				Number(minute),
			);
			return Math.round((local - Math.floor(date.getTime() / 60_000) * 60_000) / 60_000);
		},
	};
}
