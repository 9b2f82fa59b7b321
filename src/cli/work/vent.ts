import { format } from '../../trade/shown.ts';
import { cautions, dilution_m3, exposure_m3 } from '../../trade/ventilation.ts';
import { type Given, type Worked, workPart } from './part.ts';

const notGiven = 'Exposure limit not given (--limit): it asks for far more air than the explosive limit.';

/** Air a minute while a gun sprays: for a quarter of the explosive limit, and for the exposure limit beside it. */
function whileSpraying(given: Given): Worked {
	const share = given.quantity('share', 'share');
	const solvent = {
		vapour_m3_per_L: given.quantity('vapour', 'vapour'),
		solvent_L: (given.quantity('flow', 'flow') * share) / 1000,
	};
	const fire = dilution_m3({ ...solvent, lel: given.quantity('lel', 'share') });
	const limit = given.has('limit') ? given.quantity('limit', 'share') : null;
	const mixing = given.numberOr('mixing', 1);
	const health = limit === null ? null : exposure_m3({ ...solvent, limit, mixing });
	const air = (volume_m3: number) => `${format(volume_m3, 'airVolume', given.units)} of air a minute`;
	return {
		keys: {
			air_m3_per_min: fire,
			...(health !== null && { air_to_limit_m3_per_min: health }),
			cautions,
		},
		lines: [
			`While it sprays, by the rule, ${air(fire)}, at a quarter of the explosive limit.`,
			health === null || limit === null
				? notGiven
				: `At its exposure limit, ${Number((limit * 1e6).toPrecision(3))} ppm, mixing ${mixing}: ${air(health)}.`,
			...cautions,
		],
	};
}

/** Both figures stand side by side: the one of fire alone reads like leave to breathe. */
function work(given: Given): Worked {
	if (given.has('flow')) return whileSpraying(given);
	const solvent = {
		vapour_m3_per_L: given.quantity('vapour', 'vapour'),
		solvent_L: given.quantity('solvent', 'volume') / 1000,
	};
	const dilution = dilution_m3({ ...solvent, lel: given.quantity('lel', 'share') });
	const limit = given.has('limit') ? given.quantity('limit', 'share') : null;
	const mixing = given.numberOr('mixing', 1);
	const exposure = limit === null ? null : exposure_m3({ ...solvent, limit, mixing });
	const air = (volume_m3: number) => format(volume_m3, 'airVolume', given.units);
	const health =
		exposure === null || limit === null
			? notGiven
			: `At its exposure limit, ${Number((limit * 1e6).toPrecision(3))} ppm, mixing ${mixing}: ${air(exposure)} of air.`;
	return {
		keys: { dilution_m3: dilution, ...(exposure !== null && { exposure_m3: exposure }), cautions },
		lines: [
			`By the rule, ${air(dilution)} of air for this solvent, at a quarter of its explosive limit.`,
			health,
			...cautions,
		],
	};
}

export const vent = workPart({
	name: 'vent',
	summary: 'air that dilutes a solvent, for fire and for health: to check arithmetic, never a go-ahead',
	usage: [
		'work vent --vapour VAPOUR --lel SHARE --solvent VOLUME [--limit SHARE [--mixing NUMBER]]',
		'work vent --vapour VAPOUR --lel SHARE --flow FLOW --share SHARE [--limit SHARE [--mixing NUMBER]]',
	],
	options: {
		vapour: { type: 'string', value: 'VAPOUR', says: 'vapour that the liquid gives, as in "30.4 ft3/gal"' },
		lel: { type: 'string', value: 'SHARE', says: 'lower explosive limit' },
		solvent: { type: 'string', value: 'VOLUME', says: 'solvent that evaporates' },
		flow: { type: 'string', value: 'FLOW', says: 'or: of paint while the gun sprays' },
		share: { type: 'string', value: 'SHARE', says: 'of that paint which is solvent' },
		limit: { type: 'string', value: 'SHARE', says: 'exposure limit of its data sheet, as in "100 ppm"' },
		mixing: {
			type: 'string',
			value: 'NUMBER',
			says: 'how much worse the room mixes, 1 to 10; 1 if left out',
		},
	},
	examples: ['work vent --vapour "30.4 ft3/gal" --lel 1.4% --solvent "1 gal" --limit "100 ppm"'],
	work,
});
