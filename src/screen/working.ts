/** The day at work: what it tells meanwhile is looked at afterwards, when it can be shown whole. */
export type Working = {
	work<Result>(run: () => Result): Result;
	busy(): boolean;
};

export function openWorking(): Working {
	let busy = false;
	return {
		work(run) {
			busy = true;
			try {
				return run();
			} finally {
				busy = false;
			}
		},
		busy: () => busy,
	};
}
