import { summaryOf } from '../report/report.ts';
import { coatSentences } from '../words/summary-coat.ts';
import type { Command } from './command.ts';
import { askedDay, daysUpTo, told } from './day-files.ts';
import { coatAsked, faceAsked } from './face-argument.ts';
import { faultsInForce } from './trace.ts';
import { unitsAsked } from './units.ts';

/** A day, or one coat of it, in spoken sentences. */
export const summaryCommand: Command = {
	name: 'summary',
	summary: 'a day, or one coat of it, in spoken sentences',
	usage: ['summary [DAY] [--face "PART/FACE" --coat N] [--units us|metric] [--json]'],
	options: {
		face: { type: 'string', value: 'PART/FACE', says: 'one coat on this face alone' },
		coat: { type: 'string', value: 'N', says: 'which coat, as counted on the face' },
		units: { type: 'string', value: 'us|metric', says: 'units of the answer; left out, those of the day' },
		json: { type: 'boolean', says: 'the sentences as a list' },
	},
	examples: ['summary', 'summary 2027-03-02 --face "left door/edges" --coat 2'],
	run: (args, io) =>
		told('summary', io, () => {
			const { path, records } = askedDay(args, io);
			const units = unitsAsked(args, io, records);
			const sentences =
				args.options.face === undefined && args.options.coat === undefined
					? summaryOf(
							{ day: records, days: daysUpTo(path, records, io), faults: faultsInForce(args, io) },
							units,
						)
					: coatSentences(records, faceAsked(args, records), coatAsked(args), units);
			io.stdout.write(args.options.json ? `${JSON.stringify({ sentences })}\n` : `${sentences.join('\n')}\n`);
			return 0;
		}),
};
