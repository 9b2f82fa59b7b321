import type { Face, Horns, Job } from '../job/job.ts';

/** The bench and the gun as they really are, which the program never sees. */
export type World = {
	/** What the tape on the gun in hand says. */
	gun: string;
	horns: Horns | 'between';
	fanHeight_mm: number;
	pressure_kPa: number;
	/** What the tape on the cup says. */
	cup: string;
	/** What the pot shows, in the unit the batch is measured in. */
	pot: number;
	breathing: 'supplied-air' | 'filter-mask' | 'none';
	extractor: boolean;
	/** The pattern card on top of the pile. */
	card: number;
	tab: 'strings' | 'tacky' | 'dry';
	air: { C: number; humidity: number; surface_C: number };
	/** The paint, where it was brought to another temperature than that of the air. */
	paint_C: number | null;
};

export const worldOf = (job: Job): World => ({
	gun: job.gun.called ?? '',
	horns: 'level',
	fanHeight_mm: job.gun.fanHeight_mm,
	pressure_kPa: job.gun.pressure_kPa,
	cup: '',
	pot: 0,
	breathing: 'supplied-air',
	extractor: true,
	card: 1,
	tab: 'tacky',
	air: { C: job.shop.air_C, humidity: job.shop.humidity, surface_C: job.shop.air_C },
	paint_C: null,
});

/** The burst on paper, the gun held as for a face: the fan stands across the line through the horns, and turns with the wrist. */
export function patternOf(world: World, face: Face): 'tall' | 'wide' | 'bad' {
	if (world.horns === 'between') return 'bad';
	const fan = (face.tilt + (world.horns === 'level' ? 0 : 90) + 360) % 180;
	return fan === 0 ? 'tall' : 'wide';
}
