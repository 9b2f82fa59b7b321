import { type Command, helpOf } from './command.ts';
import { air } from './work/air.ts';
import { cup } from './work/cup.ts';
import { fan } from './work/fan.ts';
import { film } from './work/film.ts';
import { gun } from './work/gun.ts';
import { life } from './work/life.ts';
import { mix } from './work/mix.ts';
import { vent } from './work/vent.ts';

/** The arithmetic alone. */
export const workCommand: Command = {
	name: 'work',
	summary: 'the arithmetic alone: mix, film, air, cups, pot life, fan, gun, ventilation',
	usage: ['work mix|film|air|cup|life|fan|gun|vent [options]'],
	options: {},
	examples: [...mix.examples.slice(0, 1), ...film.examples.slice(0, 1)],
	parts: [mix, film, air, cup, life, fan, gun, vent],
	run(_args, io) {
		io.stderr.write('fanwise work: say what to work out: mix, film, air, cup, life, fan, gun or vent\n');
		io.stderr.write(helpOf(workCommand));
		return 2;
	},
};
