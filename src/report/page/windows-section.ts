import { format } from '../../trade/shown.ts';
import { windows } from '../pictures/windows.ts';
import { face, plain, spot, word } from '../said.ts';
import type { Coming } from '../tables/coming.ts';
import type { WindowRow } from '../tables/windows.ts';
import { figure, type Report, type Section } from './context.ts';
import { html } from './markup.ts';
import { table } from './table.ts';

/** What comes next, as the table says it. */
function whatSaid({ what, stage, coat }: Coming): string {
	if (coat)
		return `coat ${coat.number}${coat.does === 'spray' ? '' : `, ${coat.does} first`} (${plain(stage)})`;
	return what === 'stage' ? `next stage, ${plain(stage)}` : `${word(what)} (${plain(stage)})`;
}

/** Recoat windows of every face with their instants, and what is due next. */
export function windowsSection({ tables, times, units }: Report): Section {
	const spans = ({ windows: all }: WindowRow) =>
		all
			.map(({ does, from, until }) =>
				until === null
					? `${word(does)} from ${times.moment(from)} on`
					: `${word(does)} ${times.moment(from)} to ${times.moment(until)}`,
			)
			.join('; ');
	return {
		id: 'windows',
		title: 'Recoat windows',
		content: [
			html`<p>From the data sheet in the job sheet, by the highest surface temperature held. A wait that is over is not a coat that is dry: the touch on the tape tab decides.</p>\n`,
			tables.windows.length > 0
				? figure(
						windows(tables.windows),
						'Hours after the coat; later hours stand closer together. Hatched: wait. Plain: spray. Dotted: scuff first. Squared: sand first.',
					)
				: null,
			table(
				'Windows after each coat',
				[
					{ head: 'Face', cell: row => spot(row.face, row.coat) },
					{ head: 'Finished', cell: row => times.moment(row.ended), figure: true },
					{ head: 'Surface', cell: row => format(row.surface_C, 'temperature', units), figure: true },
					{ head: 'Allows', cell: row => spans(row) },
					{
						head: 'Next coat',
						cell: row =>
							row.next ? `${times.moment(row.next.began)}, in ${word(row.next.window)}` : 'not laid',
					},
				],
				tables.windows,
				'No coat has any yet.',
			),
			table(
				'Due next',
				[
					{ head: 'What', cell: whatSaid },
					{ head: 'First face from', cell: row => times.moment(row.from), figure: true },
					{ head: 'All from', cell: row => times.moment(row.all), figure: true },
					{
						head: 'Without more work until',
						cell: row => (row.until === null ? '' : times.moment(row.until)),
						figure: true,
					},
					{ head: 'Faces', cell: row => row.faces.map(face).join(', ') },
				],
				tables.coming,
				'Nothing that the sheet or the data sheets say.',
			),
		],
	};
}
