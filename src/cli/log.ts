import { lostOf } from '../day/file/lost.ts';
import { salvageDay } from '../day/file/salvage.ts';
import { plainName } from '../day/file/trouble.ts';
import { logLine } from '../words/log-line.ts';
import { lostLine } from '../words/lost-line.ts';
import type { Args, Command, Io } from './command.ts';
import { askedDay, pathAsked, told } from './day-files.ts';

function salvage(args: Args, target: string, io: Io): number {
	const path = pathAsked(args, io);
	const saved = salvageDay(path, target);
	if (args.options.json) {
		io.stdout.write(`${JSON.stringify(saved)}\n`);
		return saved.lost.length > 0 ? 1 : 0;
	}
	io.stdout.write(
		`${saved.savedRecords} records saved in ${plainName(target)}, until ${saved.savedUntil}; ` +
			`${saved.lost.length} lines lost (${saved.lostBytes} bytes)\n`,
	);
	const damaged = saved.lost.find(({ what }) => what !== null)?.line ?? 0;
	const whole = (line: number) =>
		line < damaged ? 'whole, but the rest of its key is not' : 'whole, but behind the damage';
	for (const { line, what, type, at } of saved.lost)
		io.stdout.write(`  line ${line}: ${what ?? whole(line)}${type ? `; ${type} at ${at}` : ''}\n`);
	return saved.lost.length > 0 ? 1 : 0;
}

/** The day as lines, one a record. */
export const logCommand: Command = {
	name: 'log',
	summary: 'the day as lines, one a record; or what can be saved of a damaged one',
	usage: ['log [DAY] [--json]', 'log DAY --salvage FILE'],
	options: {
		json: { type: 'boolean', says: 'the records as JSON, one a line' },
		salvage: { type: 'string', value: 'FILE', says: 'save what is whole of a damaged day in a new file' },
	},
	examples: ['log', 'log 2027-03-02', 'log cart.day.jsonl --salvage saved.day.jsonl'],
	run: (args, io) =>
		told('log', io, () => {
			if (typeof args.options.salvage === 'string') return salvage(args, args.options.salvage, io);
			const { path, records } = askedDay(args, io);
			const zone = records[0]?.type === 'day.opened' ? records[0].zone : 'UTC';
			const lost = lostOf(path);
			const isJson = args.options.json === true;
			for (const one of isJson ? lost : []) io.stderr.write(`fanwise log: ${lostLine(one)}\n`);
			for (const record of records) {
				io.stdout.write(`${isJson ? JSON.stringify(record) : logLine(record, zone)}\n`);
				const here = isJson ? [] : lost.filter(({ behind }) => behind === record.seq);
				for (const one of here) io.stdout.write(`          ${lostLine(one)}\n`);
			}
			return 0;
		}),
};
