import { shelfFolder } from '../day/file/folder.ts';
import type { Checklist } from '../job/checklist.ts';
import { coatSpeeds } from '../job/coat-speeds.ts';
import { errorLines, type SheetError } from '../job/errors.ts';
import { brief } from '../job/inert.ts';
import type { Job } from '../job/job.ts';
import { loadLists } from '../job/lists.ts';
import { loadJob } from '../job/load.ts';
import { notesOf } from '../job/notes.ts';
import type { UnitSystem } from '../trade/quantity.ts';
import { format, formatRange } from '../trade/shown.ts';
import type { Args, Command, Io } from './command.ts';

type Checked = { job: Job; lists: Checklist[] } | { errors: SheetError[] };

/** A sheet and every list it names, or all that is wrong with them. */
export async function check(path: string): Promise<Checked> {
	const loaded = await loadJob(path, shelfFolder());
	if (!loaded.ok) return { errors: loaded.errors };
	const lists = await loadLists(loaded.job, path);
	return lists.ok ? { job: loaded.job, lists: lists.lists } : { errors: lists.errors };
}

const count = (number: number, one: string): string => `${number} ${one}${number === 1 ? '' : 's'}`;

/** Per spraying stage: the coats, the faces and the paint as sprayed. */
function stageFacts(job: Job) {
	const { stages, faces } = job;
	return stages.flatMap((stage, index) => {
		if (stage.kind !== 'coats') return [];
		const coats = faces.map(face => face.coats.filter(coat => coat.stage === index));
		const volume_mL = coats.flat().reduce((sum, coat) => sum + coat.volume_mL, 0);
		const { name, material } = stage;
		const speeds = coatSpeeds({
			...job,
			faces: job.faces.map(face => ({ ...face, coats: face.coats.filter(coat => coat.stage === index) })),
		});
		return [
			{
				name,
				material,
				coats: stage.coats,
				speeds: speeds.map(({ coats: _, material: __, gun: ___, ...speed }) => speed),
				faces: coats.filter(({ length }) => length > 0).length,
				volume_mL,
			},
		];
	});
}

function text({ job, lists }: { job: Job; lists: Checklist[] }, units: UnitSystem): string[] {
	const area_m2 = job.faces.reduce((sum, face) => sum + face.area_m2, 0);
	const coats = job.faces.reduce((sum, face) => sum + face.coats.length, 0);
	return [
		`${job.name}: ${count(job.parts.length, 'part')}, ${count(job.faces.length, 'face')}, ${format(area_m2, 'area', units)}`,
		...stageFacts(job).flatMap(stage => [
			`  ${stage.name}: ${stage.coats.join(', ')} on ${count(stage.faces, 'face')}, ${format(stage.volume_mL, 'volume', units)} as sprayed`,
			...stage.speeds.map(
				one =>
					`    ${one.kind}: ${formatRange(one.slowest_mm_per_s, one.fastest_mm_per_s, 'speed', units)} at ${format(one.flow_mL_per_min, 'flow', units)}, fan ${format(one.fanHeight_mm, 'length', units)}`,
			),
		]),
		`  lists: ${lists.map(({ list, items }) => `${list} ${items.length}`).join(', ')}`,
		...notesOf(job, units).map(note => `  look again: ${note}`),
		`Nothing is wrong with the sheet: ${count(Object.keys(job.materials).length, 'material')}, ${count(coats, 'coat')} to lay.`,
	];
}

const data = ({ job, lists }: { job: Job; lists: Checklist[] }) => ({
	valid: true,
	errors: [],
	job: job.name,
	parts: job.parts.length,
	faces: job.faces.length,
	area_m2: job.faces.reduce((sum, face) => sum + face.area_m2, 0),
	stages: stageFacts(job),
	lists: lists.map(({ list, items }) => ({ list, items: items.map(({ code }) => code) })),
	notes: notesOf(job, 'metric'),
});

function unitsOf({ options }: Args, io: Io, job: Job): UnitSystem | undefined {
	const asked = options.units ?? io.units ?? job.units;
	return asked === 'us' || asked === 'metric' ? asked : undefined;
}

/** Validates a job sheet and every list it names. */
export const checkCommand: Command = {
	name: 'check',
	summary: 'validates a job sheet and every list it names',
	usage: ['check JOB.yaml [--units us|metric] [--json]'],
	options: {
		units: {
			type: 'string',
			value: 'us|metric',
			says: 'units of the answer; those of the sheet if left out',
		},
		json: { type: 'boolean', says: 'what was found, or every error, as JSON' },
	},
	examples: ['check coffee-cart.yaml', 'check coffee-cart.yaml --json'],
	async run(args, io) {
		const [path, ...more] = args.positionals;
		if (path === undefined || more.length > 0) {
			io.stderr.write(
				'fanwise check: name one job sheet: fanwise check JOB.yaml (fanwise example writes one)\n',
			);
			return 2;
		}
		const checked = await check(path);
		if ('errors' in checked) {
			for (const line of errorLines(checked.errors)) io.stderr.write(`${line}\n`);
			if (args.options.json) io.stdout.write(`${JSON.stringify({ valid: false, errors: checked.errors })}\n`);
			return 2;
		}
		const units = unitsOf(args, io, checked.job);
		if (!units) {
			io.stderr.write(
				`fanwise check: --units "${brief(String(args.options.units))}" is unknown: say us or metric\n`,
			);
			return 2;
		}
		io.stdout.write(
			args.options.json ? `${JSON.stringify(data(checked))}\n` : `${text(checked, units).join('\n')}\n`,
		);
		return 0;
	},
};
