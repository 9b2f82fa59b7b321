import { DayFileError } from '../day/file/trouble.ts';

/** The day at work: what it tells meanwhile is looked at afterwards, when it can be shown whole. */
export type Working = {
	/** Has the day do something that may write. Null where the disk failed: that is told, and nothing has changed. */
	work<Result>(run: () => Result): Result | null;
	busy(): boolean;
};

/** @param tell what to do about a disk that failed, in one line */
export function openWorking(tell: (message: string) => void): Working {
	let busy = false;
	return {
		work(run) {
			busy = true;
			try {
				return run();
			} catch (error) {
				if (!(error instanceof DayFileError) || error.kind !== 'disk') throw error;
				tell(error.message);
				return null;
			} finally {
				busy = false;
			}
		},
		busy: () => busy,
	};
}
