import { extrasWritten } from '../../trade/ratio.ts';
import { format } from '../../trade/shown.ts';
import { plain, spot, value, word } from '../said.ts';
import type { BatchRow, PourRow } from '../tables/batches.ts';
import type { WorkRow } from '../tables/happenings.ts';
import { count, type Report, type Section } from './context.ts';
import { html, type Piece } from './markup.ts';
import { table } from './table.ts';

/** Readings that differed, both values; and how often a first reading did. */
export function readingsSection({ tables, times, units }: Report): Section {
	const { first_readings: asked, first_differed: differed } = tables.counts;
	const sign =
		asked > 0 && differed === 0
			? html`<p class="notice">Not one first reading differed. Over many days that is a warning sign and not a success: look, point, say, then key.</p>\n`
			: null;
	return {
		id: 'readings',
		title: 'Readings that differed',
		content: [
			html`<p>${differed} of ${count(asked, 'first reading')} differed from what was wanted.</p>\n`,
			sign,
			table(
				'Each reading that differed',
				[
					{ head: 'At', cell: row => times.second(row.at) },
					{ head: 'Of', cell: row => word(row.feature) },
					{ head: 'Read', cell: row => value(row.feature, row.value, units) },
					{ head: 'Wanted', cell: row => value(row.feature, row.wanted, units) },
					{
						head: 'Read after it',
						cell: row =>
							row.after === null
								? 'not read again'
								: `${value(row.feature, row.after.value, units)}${row.after.matched ? '' : ', differed again'}`,
					},
					{
						head: 'For',
						cell: row => spot(row.face, row.coat) || (row.batch === null ? '' : `batch ${row.batch}`),
					},
				],
				tables.differed,
				'None.',
			),
			table(
				'First readings by feature',
				[
					{ head: 'Feature', cell: row => word(row.feature) },
					{ head: 'Read', cell: row => row.asked, figure: true },
					{ head: 'Differed', cell: row => row.differed, figure: true },
				],
				tables.first,
				'None was taken.',
			),
		],
	};
}

export const overridesSection = ({ tables, times }: Report): Section => ({
	id: 'overrides',
	title: 'Overrides',
	content: table(
		'Rules passed over, with the reason given',
		[
			{ head: 'At', cell: row => times.second(row.at) },
			{ head: 'Rule', cell: row => word(row.rule) },
			{ head: 'Reason', cell: row => plain(row.reason) },
			{ head: 'For', cell: row => spot(row.face, row.coat) },
		],
		tables.overrides,
		'None was given.',
	),
});

const ratioSaid = ({ ratio, by }: BatchRow): string =>
	`${ratio.base}:${ratio.hardener}${ratio.reducer > 0 ? `:${Number(ratio.reducer.toPrecision(3))}` : ''}${extrasWritten(ratio)} by ${by}`;

const poured: Record<string, string> = {
	right: 'right',
	short: 'short',
	over: 'over',
	before: 'nothing more in',
	unknown: 'not known',
};

/** Batches with their pours. */
export function batchesSection({ tables, times, units, day }: Report): Section {
	const mL = (volume: number | null) => (volume === null ? '' : format(volume, 'volume', units));
	const amount = (volume: number | null, mass: number | null) =>
		mass === null ? mL(volume) : format(mass, 'mass', units);
	const ends = ({ discarded, emptied }: BatchRow) =>
		discarded
			? `discarded ${times.moment(discarded.at)}: ${plain(discarded.why)}`
			: emptied
				? `cup emptied ${times.moment(emptied)}`
				: '';
	const pours = (rows: readonly PourRow[], letter: string): Piece =>
		table(
			`Pours of batch ${letter}`,
			[
				{ head: 'At', cell: row => times.second(row.at) },
				{ head: 'What', cell: row => `${row.again ? 'found after a break: ' : ''}${row.component}` },
				{ head: 'Can mark read', cell: row => plain(row.can) },
				{ head: 'Level or weight read', cell: row => amount(row.level_mL, row.mass_g), figure: true },
				{ head: 'Wanted', cell: row => amount(row.wanted_mL, row.wanted_g), figure: true },
				{ head: 'So', cell: row => poured[row.found] ?? row.found },
			],
			rows,
			'None.',
		);
	return {
		id: 'batches',
		title: 'Batches',
		content: [
			table(
				'Every batch mixed',
				[
					{
						head: 'Batch',
						cell: row => `${row.batch}, ${plain(day.job.materials[row.material]?.name ?? row.material)}`,
					},
					{ head: 'Ratio', cell: row => ratioSaid(row) },
					{ head: 'Begun', cell: row => times.second(row.started), figure: true },
					{
						head: 'Hardener in',
						cell: row => (row.hardened === null ? 'not read' : times.second(row.hardened)),
						figure: true,
					},
					{ head: 'Stood', cell: row => (row.stood === null ? '' : times.second(row.stood)), figure: true },
					{
						head: 'Cup',
						cell: row =>
							row.cup === null
								? ''
								: `${row.cup.seconds} s at ${format(row.cup.temp_C, 'temperature', units)}${row.cup.fits ? '' : ', outside its range'}`,
						figure: true,
					},
					{ head: 'Made', cell: row => mL(row.volume_mL), figure: true },
					{
						head: 'Pot life ends',
						cell: row => (row.lives_until === null ? '' : times.moment(row.lives_until)),
						figure: true,
					},
					{ head: 'Left', cell: row => ends(row) },
				],
				tables.batches,
				'None was mixed.',
			),
			tables.batches.map(row => pours(row.pours, row.batch)),
		],
	};
}

/** The same work on several faces with one key is one row. */
function together(rows: readonly WorkRow[]): (WorkRow & { faces: string[] })[] {
	const found: (WorkRow & { faces: string[] })[] = [];
	for (const row of rows) {
		const last = found.at(-1);
		const same = last && last.at === row.at && last.did === row.did && last.detail === row.detail;
		if (same && row.coat === null) last.faces.push(row.face);
		else found.push({ ...row, faces: [row.face] });
	}
	return found;
}

/** Work on faces that is not spraying, where any was logged. */
export const workSection = ({ tables, times }: Report): Section => ({
	id: 'work',
	title: 'Preparation and rework',
	content: table(
		'Work on faces',
		[
			{ head: 'At', cell: row => times.moment(row.at) },
			{ head: 'Face', cell: row => row.faces.map(id => spot(id, row.coat)).join(', ') },
			{ head: 'Did', cell: row => (row.did.startsWith('rework') ? plain(row.did) : word(row.did)) },
			{ head: 'With', cell: row => plain(row.detail) },
		],
		together(tables.work),
		'None was logged.',
	),
});
