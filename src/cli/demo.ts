import { noHistory } from '../day/history.ts';
import { openingRecord } from '../day/open.ts';
import type { DayRecord } from '../day/records.ts';
import { rehearse } from '../day/rehearsal.ts';
import { standardSettings } from '../day/standard-settings.ts';
import { exampleSheet } from '../job/checklists-folder.ts';
import { painterOf } from '../painter/painter.ts';
import { type Moment, play, type Twist } from '../painter/play.ts';
import { daySentences } from '../report/summary.ts';
import type { Command, Io } from './command.ts';
import { version } from './package.ts';
import { readSheet } from './sheet.ts';

const start = Date.parse('2027-03-02T08:00:00Z');

/** The example day: a visitor in the flash wait, the fan left turned and caught, a run. */
const twists: readonly Twist[] = [
	{
		when: ({ state, coat, lines }) =>
			state === 'spraying' && coat === 1 && lines.some(line => line.includes('left door: outside')),
		tell: 'A run slides down the outside of the left door. The painter leaves it wet.',
		keys: [
			...['wait 50 s', 'trouble', 'wet-fault', 'left door/outside', 'all'],
			...['run', 'left door/outside', 'set-part-aside', 'back'],
		],
	},
	{
		when: ({ state, coat }) => state === 'wait' && coat === 2,
		tell: 'The baker from next door looks in about the oven rail, turns the gun over in his hands, and stays for twelve minutes.',
		change: world => {
			world.horns = world.horns === 'level' ? 'upright' : 'level';
		},
		keys: ['hold', 'wait 12 min', 'back'],
	},
];

const told = (moment: Moment | string): string => {
	if (typeof moment === 'string') return `\n       -- ${moment}\n\n`;
	const { line, shown } = moment;
	const lines = line.lines.map(text => `       ${text}\n`).join('');
	return `${line.at.slice(11, 16)}  ${line.say}${shown ? `   > ${shown}` : ''}\n${lines}`;
};

/** Plays the example day as text. */
export async function demo(io: Io): Promise<number> {
	const sheet = await readSheet(exampleSheet(), io, 'demo');
	if (!sheet) return 2;
	const settings = { ...standardSettings, units: io.units ?? ('sheet' as const) };
	const records: DayRecord[] = [
		openingRecord(
			{ ...sheet, settings, clock: 'moved', program: version(), before: noHistory, zone: 'UTC' },
			{ wall: start, mono: 0 },
		),
	];
	const sink = () => ({
		records: [...records],
		append: (made: readonly DayRecord[]) => void records.push(...made),
		close() {},
	});
	const rehearsal = rehearse(sink, start);
	const painter = painterOf(sheet.job, () => rehearsal.session().state());
	io.stdout.write(
		`${sheet.job.name}: a day at the Pump Yard workshop, played by a scripted painter. Times are UTC.\n\n`,
	);
	for (const moment of play(rehearsal, painter, twists)) io.stdout.write(told(moment));
	io.stdout.write(`\n${daySentences(records, io.units ?? sheet.job.units).join('\n')}\n`);
	return 0;
}

export const demoCommand: Command = {
	name: 'demo',
	summary: 'the example day played by a scripted painter, as text',
	usage: ['demo'],
	words: 0,
	options: {},
	examples: ['demo', 'demo | less'],
	run: (_args, io) => demo(io),
};
