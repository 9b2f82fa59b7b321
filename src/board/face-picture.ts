import type { View } from '../day/view.ts';
import type { Job } from '../job/job.ts';
import { cap } from '../report/pictures/cap.ts';

/**
 * The report's picture of the face in hand, once a view holds the gun; null: it does not, and nothing is drawn.
 * @param id its own within the page
 */
export function pictureOf({ gun }: View, _sheet: Job, id: number): string | null {
	if (gun?.horns !== 'level' && gun?.horns !== 'upright') return null;
	const { horns, tilt, stroke } = gun;
	const fan_deg = (tilt + (horns === 'level' ? 0 : 90) + 360) % 180;
	return cap({ horns, tilt, stroke, fan_deg, coats: [] }, id).markup;
}
