import { daysOfJob } from '../day/file/days.ts';
import { listDays } from '../day/file/folder.ts';
import { noHistory } from '../day/history.ts';
import { localZone } from '../day/local-zone.ts';
import { inert } from '../job/inert.ts';
import type { Job } from '../job/job.ts';
import { planJob } from '../plan/job-plan.ts';
import type { OrderName } from '../plan/order.ts';
import { learnFrom } from '../plan/rates.ts';
import { nearest } from '../trade/nearest.ts';
import type { Args, Command, Io } from './command.ts';
import { folderOf, told } from './day-files.ts';
import { instantIn } from './instant.ts';
import { historyOf, taughtIn } from './job-days.ts';
import { planData } from './plan-data.ts';
import { planText } from './plan-text.ts';
import { readSheet } from './sheet.ts';

/** Order, cap turns, batches, amounts and times of a job. */
export const planCommand: Command = {
	name: 'plan',
	summary: 'order, cap turns, batches, amounts, times',
	usage: ['plan JOB.yaml [--order NAME] [--start TIME] [--rest] [--units us|metric] [--json]'],
	options: {
		order: {
			type: 'string',
			value: 'NAME',
			says: "fewest-turns, wettest-edge or sheet; the sheet's if left out",
		},
		start: {
			type: 'string',
			value: 'TIME',
			says: 'start of the first day, 2027-03-02T08:00:00Z; 8 today if left out',
		},
		rest: { type: 'boolean', says: 'only what the days already done have left' },
		units: {
			type: 'string',
			value: 'us|metric',
			says: 'units of the answer; those of the sheet if left out',
		},
		json: { type: 'boolean', says: 'the plan as data, SI units' },
	},
	examples: ['plan coffee-cart.yaml', 'plan coffee-cart.yaml --start 2027-03-02T08:00:00Z --json'],
	run: (args, io) =>
		told('plan', io, async () => {
			if (args.positionals.length > 1) throw new RangeError('name one job sheet: fanwise plan JOB.yaml');
			const sheet = await readSheet(args.positionals[0], io, 'plan');
			if (!sheet) return 2;
			const { job } = sheet;
			const units = unitsOf(args, io, job);
			const { faces, letters } = args.options.rest
				? historyOf(daysOfJob(folderOf(io), job.name)).before
				: noHistory;
			const plan = planJob({
				...{ job, letters, history: faces, start: startAsked(args), which: orderAsked(args, job) },
				learned: learnFrom(taughtIn(listDays(folderOf(io)), io), job),
			});
			const zone = localZone();
			io.stdout.write(
				args.options.json
					? `${JSON.stringify(planData(plan))}\n`
					: `${planText(plan, { start: plan.start, zone, units, width: 80 }).join('\n')}\n`,
			);
			return plan.feasible ? 0 : 1;
		}),
};

function orderAsked(args: Args, job: Job): OrderName {
	const asked = args.options.order;
	if (asked === undefined) return job.order;
	const words = ['fewest-turns', 'wettest-edge', 'sheet'] as const;
	const found = words.find(word => word === asked);
	if (found) return found;
	const like = nearest(String(asked), [...words]);
	throw new RangeError(`--order "${inert(String(asked))}" is unknown: the nearest is "${like}"`);
}

function startAsked(args: Args): number {
	const asked = args.options.start;
	if (asked === undefined) return new Date().setHours(8, 0, 0, 0);
	const at = instantIn(String(asked));
	if (at !== null) return at;
	throw new RangeError(`--start "${inert(String(asked))}" is no time: write 2027-03-02T08:00:00Z`);
}

function unitsOf({ options }: Args, io: Io, job: Job): 'us' | 'metric' {
	const asked = options.units ?? io.units ?? job.units;
	if (asked === 'us' || asked === 'metric') return asked;
	throw new RangeError(`--units "${inert(String(asked))}" is unknown: say us or metric`);
}
