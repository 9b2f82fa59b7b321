import type { Session } from '../day/session.ts';
import type { Io } from './command.ts';
import { statusOf } from './status.ts';

/**
 * Says of a day that was left on a disk that fails what that means.
 * @param status with which it was left
 * @returns the status to end with
 */
export function leftUnkept(day: Session, status: number, io: Io): number {
	const trouble = day.unkept();
	if (!trouble) return status;
	io.stderr.write(`${trouble.message}. The day stands in hold when it is opened again\n`);
	return status || statusOf(trouble);
}
