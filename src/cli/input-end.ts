/** How long an input that is no terminal is looked at: whoever answers a question waits for it. */
const look_ms = 500;

/** Whether an input ends before anything has come of it. What has come stays in it; a terminal is never at its end. */
export const isAtItsEnd = (input: NodeJS.ReadableStream & { isTTY?: boolean }): Promise<boolean> =>
	new Promise(resolve => {
		if (input.isTTY) return resolve(false);
		const found = (ended: boolean) => {
			clearTimeout(timer);
			input.off('readable', read);
			input.off('end', end);
			resolve(ended);
		};
		const end = () => found(true);
		const read = () => {
			const come = input.read();
			if (come === null) return;
			input.unshift(come);
			found(false);
		};
		const timer = setTimeout(() => found(false), look_ms);
		input.on('end', end).on('readable', read);
	});
