import { meanWetFilm_um, type Pace, paceOf, spacing_mm } from '../trade/film.ts';
import { sagLimit_um } from '../trade/sag.ts';
import { format } from '../trade/shown.ts';
import { faceBook, faceOf, jobOf, type Moment, materialOf, nextCoat, unitsOf } from './moment.ts';

/** How a face under way compares with the time that it should take, were it finished now. */
function paceNow(moment: Moment, id: string): Pace | null {
	const { pass } = faceBook(moment, id);
	const took_s = pass ? (moment.now.wall - pass.began.wall) / 1000 : 0;
	if (!pass || took_s <= 0) return null;
	const { gun } = jobOf(moment);
	const { attitude, fanHeight_mm } = faceOf(moment, id);
	const { sag_um } = materialOf(moment, nextCoat(moment, id).material);
	const wet_um = meanWetFilm_um({ ...gun, spacing_mm: spacing_mm({ fanHeight_mm, overlap: gun.overlap }) });
	return paceOf({ took_s, should_s: pass.spray_s, wet_um, limit_um: sagLimit_um(sag_um, attitude) });
}

/** A line about a face that was sprayed too fast or too slow; null where it was right. */
export function paceLine(moment: Moment, id: string): string | null {
	const found = paceNow(moment, id);
	if (!found || found.pace === 'right') return null;
	const film = format(found.wet_um, 'film', unitsOf(moment));
	if (found.pace === 'fast') return `Last face: fast, about ${film} wet. Look for thin places.`;
	return `Last face: slow, about ${film} wet. ${found.runs ? 'It may run.' : 'Look at its edges.'}`;
}
