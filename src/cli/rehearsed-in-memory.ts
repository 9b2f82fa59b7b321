import { encodeKey } from '../day/file/keep.ts';
import { followsOn, headOf } from '../day/file/sums.ts';
import { historyAfter } from '../day/history.ts';
import type { DayRecord } from '../day/records.ts';
import type { Kept } from './rehearsed-file.ts';

/** Days kept in memory: a kill loses nothing that was recorded, and the next day rests on the bytes of a file that is none. */
export function rehearsedInMemory(): Kept {
	let keys: DayRecord[][] = [];
	const open = () => ({
		records: keys.flat(),
		append: (made: readonly DayRecord[]) => void keys.push([...made]),
		close() {},
	});
	const bytes = () => {
		let last: DayRecord | undefined;
		return Buffer.concat(
			keys.map(made => {
				const piece = encodeKey(made, last);
				last = made.at(-1);
				return piece;
			}),
		);
	};
	return {
		began: null,
		last: null,
		open,
		left() {
			const records = keys.flat();
			const follows = followsOn(records, headOf(bytes(), records.length));
			return { before: historyAfter(records), follows };
		},
		begin(first) {
			keys = [[first]];
			return open();
		},
	};
}
