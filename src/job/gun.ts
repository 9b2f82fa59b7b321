import { standardTurn_s } from '../film/balance.ts';
import { type Losses, standardLosses } from '../film/losses.ts';
import { comfortable_mm_per_s } from '../film/speed.ts';
import { usualFan } from '../trade/fan.ts';
import type { Source } from './document.ts';
import type { GunEntry } from './gun-keys.ts';
import type { Job } from './job.ts';
import { lineToWrite } from './lines-to-write.ts';

/** Stands in for a gun that could not be read, so that the faces can still be checked. */
const stopgap = {
	pressure: { value: 200, unit: undefined },
	fan: 200,
	distance: 150,
	overlap: 0.5,
	flow: { mL_per_min: 200, tolerance: 0 },
};

/** The honest start until somebody has measured: common practice, no source. */
const unmeasured = { transfer: { share: 0.5, tolerance: 0.1 }, ...usualFan };

/** What a gun's film rests on that its sheet does not say. */
const assumedOf = (gun: GunEntry | undefined): string[] =>
	gun
		? (['overlap', 'distance', 'transfer', 'fan depth', 'feather'] as const).filter(key => !gun.has(key))
		: [];

function lossesOf(losses: GunEntry['values']['losses']): Losses {
	const { strainer, pot, gun, burst } = losses?.values ?? {};
	return {
		strainer_mL: strainer ?? standardLosses.strainer_mL,
		pot_mL: pot ?? standardLosses.pot_mL,
		gun_mL: gun ?? standardLosses.gun_mL,
		burst_s: burst ?? standardLosses.burst_s,
	};
}

/** The gun of a sheet or of the shelf, with what it leaves out; checked against itself. */
export function gunOf(source: Source, gun: GunEntry | undefined): Job['gun'] {
	const read = { ...stopgap, ...gun?.values };
	const { holds, kind } = read.cup?.values ?? {};
	const { feather, depthOfHeight } = unmeasured;
	const [across = feather, along = feather, ...more] = read.feather ?? [];
	const transfer = read.transfer ?? unmeasured.transfer;
	const assumed = assumedOf(gun);
	for (const key of ['pressure', 'fan', 'flow'] as const)
		if (gun && !gun.has(key) && gun.values[key] === undefined)
			source.fail(gun.at, `${gun.name}, ${key} is missing: write "${lineToWrite('', key)}"`);
	if (gun && read.feather && (read.feather.length < 2 || more.length > 0))
		source.fail(gun.place('feather'), 'gun, feather: two numbers are wanted, across and along the fan');
	return {
		pressure_kPa: read.pressure.value,
		...(read.pressure.unit && { pressureUnit: read.pressure.unit }),
		fanHeight_mm: read.fan,
		fanDepth_mm: read['fan depth'] ?? read.fan * depthOfHeight,
		beta: [across, along],
		distance_mm: read.distance,
		overlap: read.overlap,
		flow_mL_per_min: read.flow.mL_per_min,
		flow_tolerance: read.flow.tolerance,
		...(read.speed !== undefined && { speed_mm_per_s: read.speed }),
		speeds_mm_per_s: read.speeds ?? [...comfortable_mm_per_s],
		transfer: transfer.share,
		transfer_tolerance: transfer.tolerance,
		...(read.lead !== undefined && { lead_mm: read.lead }),
		turn_s: read.turn ?? standardTurn_s,
		held: read.trigger ?? false,
		...(read['first line'] !== undefined && { firstLine: read['first line'] }),
		losses: lossesOf(read.losses),
		...(assumed.length > 0 && { assumed }),
		...(read.tip !== undefined && { tip_mm: read.tip }),
		cup_mL: holds ?? Number.POSITIVE_INFINITY,
		cupKind: kind ?? 'gravity',
	};
}
