import { readlinkSync } from 'node:fs';

/** What a system's own link to its zone ends in, `/usr/share/zoneinfo/Europe/Berlin`: a place, never a file of its own. */
const linked =
	/\/zoneinfo\/((?:Africa|America|Antarctica|Arctic|Asia|Atlantic|Australia|Etc|Europe|Indian|Pacific)(?:\/[A-Z][\w+-]*){1,2}|UTC)$/;

function zoneOfSystem(): string | undefined {
	try {
		return linked.exec(readlinkSync('/etc/localtime'))?.[1];
	} catch {
		return undefined;
	}
}

/**
 * The time zone of this machine, by its IANA name. The system's own link says it at once; `Intl` first reads the
 * words for dates in every form, which a start has no use for, and is asked where there is no link or TZ is set.
 */
export const localZone = (): string =>
	(process.env.TZ === undefined ? zoneOfSystem() : undefined) ??
	Intl.DateTimeFormat().resolvedOptions().timeZone;

const two = (count: number): string => String(count).padStart(2, '0');

/** The date of an instant in the time zone of this machine, as `2027-03-02`. */
export function localDate(wall: number): string {
	const at = new Date(wall);
	return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}
