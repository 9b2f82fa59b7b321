import { format } from '../../trade/shown.ts';
import { cautions, dilution_m3 } from '../../trade/ventilation.ts';
import { type Given, type Worked, workPart } from './part.ts';

function work(given: Given): Worked {
	const volume = dilution_m3({
		vapour_m3_per_L: given.quantity('vapour', 'vapour'),
		lel: given.quantity('lel', 'share'),
		solvent_L: given.quantity('solvent', 'volume') / 1000,
	});
	const air = format(volume, 'airVolume', given.units);
	return {
		keys: { dilution_m3: volume, cautions },
		lines: [`By the rule, ${air} of air for this solvent, at a quarter of its explosive limit.`, ...cautions],
	};
}

export const vent = workPart({
	name: 'vent',
	summary: 'volume of air that dilutes a solvent: to check arithmetic, never a go-ahead',
	usage: ['work vent --vapour VAPOUR --lel SHARE --solvent VOLUME'],
	options: {
		vapour: { type: 'string', value: 'VAPOUR', says: 'vapour that the liquid gives, as in "30.4 ft3/gal"' },
		lel: { type: 'string', value: 'SHARE', says: 'lower explosive limit' },
		solvent: { type: 'string', value: 'VOLUME', says: 'solvent that evaporates' },
	},
	examples: ['work vent --vapour "30.4 ft3/gal" --lel 1.4% --solvent "1 gal"'],
	work,
});
