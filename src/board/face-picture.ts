import type { View } from '../day/view.ts';
import { gunFor, type Job } from '../job/job.ts';
import { facePicture } from '../report/pictures/face.ts';

/**
 * The report's picture of the face in hand, to scale, once a view holds the gun; null: it does not, and nothing is drawn.
 * @param id its own within the page
 */
export function pictureOf({ gun, face, coat }: View, sheet: Job, id: number): string | null {
	const known = gun && sheet.faces.find(one => one.id === face);
	const planned = coat === null ? undefined : known?.coats[coat - 1];
	if (!known || !planned || planned.stroke !== gun.stroke) return null;
	return facePicture({ face: known, coat: planned, gun: gunFor(sheet, planned) }, `face-${id}`, sheet.units)
		.markup;
}
