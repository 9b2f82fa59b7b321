import { coolsBy_K } from '../job/on-work.ts';
import { pointName } from '../trade/air.ts';
import { format } from '../trade/shown.ts';
import { sentence } from '../words/say.ts';
import { judgedMargin_C } from './judged-air.ts';
import { faceOf, type Moment, materialOf, nextCoat, unitsOf } from './moment.ts';
import { pending } from './order.ts';
import type { DayRecord } from './records.ts';

/** By how much the coming coats may cool a face at most, K; 0: the sheet says of none what it is made of. */
const mostCooled_K = (moment: Moment): number =>
	Math.max(
		0,
		...pending(moment).map(({ face }) => {
			const { material, kind } = nextCoat(moment, face);
			const { substrate } = faceOf(moment, face);
			return substrate ? coolsBy_K(materialOf(moment, material), kind, substrate) : 0;
		}),
	);

/**
 * What is said beside the next question once the air was read and lets spray: that the film's own cooling may take more of
 * the margin over the dew point than is wanted of it. It is advice, and no verdict rests on it; null: it may not, or nobody
 * knows.
 * @param made the records of one key
 */
export function coolingSaid(moment: Moment, made: readonly DayRecord[]): string | null {
	const air = made.find(record => record.type === 'air.read');
	if (!air?.spray) return null;
	const margin_K = air.surfaceC - air.dewPointC;
	const by_K = mostCooled_K(moment);
	const wanted_K = judgedMargin_C(
		moment,
		pending(moment).map(({ face }) => nextCoat(moment, face).material),
	);
	if (by_K === 0 || margin_K - by_K >= wanted_K) return null;
	const [margin, by] = [margin_K, by_K].map(kelvin =>
		format(kelvin, 'temperatureDifference', unitsOf(moment)),
	);
	return sentence(`${pointName(air.dewPointC)} margin ${margin}: fast reducer may take ${by}.`);
}
