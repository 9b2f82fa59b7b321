import { asDay } from '../day/file/trouble.ts';
import { type FaceNow, nowAfter } from '../day/now.ts';
import type { DayRecord, EventOf } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import type { Counts } from '../report/tables/counts.ts';
import { dayOf } from '../report/tables/day.ts';
import { rowsOf } from '../report/tables/tables.ts';
import { clock, date } from '../words/clock.ts';
import { duration, faceName } from '../words/say.ts';
import type { Args, Command } from './command.ts';
import { askedDay, jobOf, told } from './day-files.ts';
import { instantIn } from './instant.ts';

/** What can be done to each face at this moment, and until when. */
export const nowCommand: Command = {
	name: 'now',
	summary: 'what can be done to each face at this moment, and until when',
	usage: ['now [DAY] [--at TIME] [--json]'],
	options: {
		at: { type: 'string', value: 'TIME', says: 'another moment than this, 2027-03-02T14:00:00Z' },
		json: { type: 'boolean', says: 'the faces as data' },
	},
	examples: ['now', 'now --at 2027-03-04T08:00:00Z'],
	run: (args, io) =>
		told('now', io, () => {
			const { path, records } = askedDay(args, io);
			const opened = records[0];
			if (opened?.type !== 'day.opened')
				throw new RangeError('the day has no beginning: try fanwise log --salvage');
			const at = momentAsked(args, records);
			jobOf(path, io);
			const found = asDay(path, () => nowOf(records, at));
			const text = () => asDay(path, () => textOf(opened, found, at)).join('\n');
			io.stdout.write(`${args.options.json ? JSON.stringify(dataOf(opened.job, found, at)) : text()}\n`);
			return 0;
		}),
};

/** What has come later is never told of an earlier moment. On a moved clock this moment is the day's last. */
function momentAsked(args: Args, records: readonly DayRecord[]): number {
	const asked = args.options.at;
	const last = records.at(-1)?.at ?? '';
	const opened = records[0];
	if (asked === undefined) {
		const moved = opened?.type === 'day.opened' && opened.clock === 'moved';
		return moved ? Date.parse(last) : Date.now();
	}
	const at = instantIn(String(asked));
	if (at === null)
		throw new RangeError(`--at "${inert(String(asked))}" is no time: write 2027-03-02T14:00:00Z`);
	if (at < Date.parse(last))
		throw new RangeError(
			`--at "${inert(String(asked))}" is before the day's last record: ask from ${last} on`,
		);
	return at;
}

type Opened = Pick<EventOf<'day.opened'>, 'job' | 'zone'>;

const iso = (at: number | null): string | null => (at === null ? null : new Date(at).toISOString());

/** Where each face stands at a moment, ms since 1970, and the figures of the day as its report has them. */
export const nowOf = (records: readonly DayRecord[], at: number): Now => ({
	faces: nowAfter(records, at),
	counts: rowsOf(dayOf(records)).counts,
});
type Now = { faces: readonly FaceNow[]; counts: Counts };

const dataOf = (job: string, { faces, counts }: Now, at: number) => ({
	job,
	at: iso(at),
	faces: faces.map(faceData),
	counts,
});

function faceData({ until, next, ...face }: FaceNow) {
	const from = 'from' in next ? { from: iso(next.from) } : {};
	const end = 'until' in next ? { until: iso(next.until) } : {};
	return { ...face, until: iso(until), next: { ...next, ...from, ...end } };
}

function textOf({ job, zone }: Opened, { faces, counts }: Now, at: number): string[] {
	const moment = (ms: number) => {
		const isOtherDay = date(ms, zone) !== date(at, zone);
		return isOtherDay ? `${date(ms, zone)} ${clock(ms, zone)}` : clock(ms, zone);
	};
	const width = Math.min(26, Math.max(...faces.map(face => faceName(face.face).length)));
	const rows = faces.map(face => {
		const name = faceName(face.face);
		const short = name.length > width ? `${name.slice(0, width - 1)}…` : name.padEnd(width);
		return `${short}  ${face.coats} of ${face.planned}  ${line(face, at, moment)}`;
	});
	const on = `${counts.coats_on} of ${counts.coats_planned} coats on`;
	return [`${inert(job)}, ${date(at, zone)} ${clock(at, zone)}: ${on}`, ...rows, ...beyondLines(faces)];
}

/** Once for all faces on one side of their table. */
const beyondLines = (faces: readonly FaceNow[]): string[] =>
	(['above', 'below'] as const).flatMap(side => {
		const [first, ...more] = faces.filter(({ beyond }) => beyond === side);
		if (!first) return [];
		const which = more.length === 0 ? faceName(first.face) : `${more.length + 1} faces`;
		return [`Surface ${side} the sheet's recoat table, ${which}: the careful times hold.`];
	});

function line({ next, aside }: FaceNow, at: number, moment: (ms: number) => string): string {
	const from = (ms: number | null) => (ms === null ? 'once hard' : ms <= at ? 'now' : `from ${moment(ms)}`);
	const until = (ms: number | null) => (ms === null ? '' : `, until ${moment(ms)}`);
	if (next.may === 'rework') return `set aside (${inert(aside ?? '')}): ${next.step} ${from(next.from)}`;
	if (next.may === 'beside') return `set aside with its part (${inert(aside ?? '')})`;
	if (next.may === 'nothing') return 'done';
	if (next.may === 'begun') return `coat ${next.coat} begun, not ended`;
	if (next.may === 'sand')
		return next.from === null
			? `coat ${next.coat}: no window opens by waiting`
			: `${next.step} ${from(next.from)}, then coat ${next.coat}`;
	if (next.may === 'prep') return `${next.step} ${from(next.from)}`;
	if (next.may === 'wait')
		return `coat ${next.coat} in ${duration((next.from - at) / 1000)}, ${from(next.from)}${until(next.until)}`;
	return `coat ${next.coat} (${inert(next.material)}) now${until(next.until)}`;
}
