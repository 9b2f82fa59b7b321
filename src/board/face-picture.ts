import type { View } from '../day/view.ts';
import { cap } from '../report/pictures/cap.ts';

/** The report's picture of what a view holds of gun and face; null: nothing is known, and nothing is drawn. */
export function facePicture({ gun }: Pick<View, 'gun'>, nth: number): string | null {
	if (gun?.horns !== 'level' && gun?.horns !== 'upright') return null;
	const { horns, tilt, stroke } = gun;
	const fan_deg = (tilt + (horns === 'level' ? 0 : 90) + 360) % 180;
	return cap({ horns, tilt, stroke, fan_deg, coats: [] }, nth).markup;
}
