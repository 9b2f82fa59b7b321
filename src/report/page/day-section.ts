import { format } from '../../trade/shown.ts';
import { lostLine } from '../../words/lost-line.ts';
import { duration } from '../../words/say.ts';
import { dayCaption, dayChart } from '../pictures/day-chart.ts';
import { partsCaption, partsDrawn } from '../pictures/parts.ts';
import { face, spot, value, word } from '../said.ts';
import { figure, type Report, type Section } from './context.ts';
import { html, type Piece } from './markup.ts';
import { table } from './table.ts';

const extents: Record<string, string> = {
	all: 'all',
	part: 'part of it',
	none: 'nothing',
	unsaid: 'not said',
};

function coats({ tables, times }: Report): Piece {
	return table(
		'Every coat, in the order sprayed',
		[
			{ head: 'Face', cell: row => spot(row.face, row.coat) },
			{ head: 'From', cell: row => times.second(row.began), figure: true },
			{ head: 'To', cell: row => times.second(row.ended), figure: true },
			{
				head: 'Took',
				cell: row => `${duration(row.took_s)}${row.estimated ? ', estimated' : ''}`,
				figure: true,
			},
			{ head: 'Laid', cell: row => extents[row.extent] ?? row.extent },
			{ head: 'Batches', cell: row => row.cup.join(' + ') },
			{ head: 'Gun check', cell: row => row.check, figure: true },
			{ head: 'Window', cell: row => word(row.window) },
			{ head: 'Passed over', cell: row => row.overrides.map(word).join(', ') },
		],
		tables.coats,
		'Nothing was sprayed.',
	);
}

function breaks({ tables, times }: Report): Piece {
	return table(
		'Breaks',
		[
			{ head: 'From', cell: row => times.second(row.began) },
			{ head: 'To', cell: row => (row.ended === null ? 'not ended' : times.moment(row.ended)), figure: true },
			{ head: 'Lasted', cell: row => (row.lasted_s === null ? '' : duration(row.lasted_s)), figure: true },
			{ head: 'What', cell: row => [row.kind, ...row.also].map(word).join(', then ') },
			{ head: 'Noticed by', cell: row => `the ${row.by}` },
		],
		tables.breaks,
		'None was logged.',
	);
}

function waits({ tables, times }: Report): Piece {
	return table(
		'Waits',
		[
			{ head: 'From', cell: row => times.second(row.began) },
			{ head: 'To', cell: row => (row.ended === null ? 'not ended' : times.moment(row.ended)), figure: true },
			{ head: 'Due', cell: row => times.moment(row.due), figure: true },
			{ head: 'For', cell: row => word(row.why) },
			{ head: 'Face', cell: row => spot(row.face, row.coat) },
		],
		tables.waits,
		'None was logged.',
	);
}

function checks({ tables, times, units }: Report): Piece {
	return table(
		'Gun checks',
		[
			{ head: 'Number', cell: row => `${row.check}, ${row.size}` },
			{ head: 'Began', cell: row => times.second(row.began), figure: true },
			{
				head: 'Passed',
				cell: row => (row.passed === null ? 'broken off' : times.second(row.passed)),
				figure: true,
			},
			{ head: 'Before', cell: row => spot(row.face, row.coat) },
			{
				head: 'Read, in order',
				cell: row =>
					row.readings
						.map(
							({ feature, value: said, matched }) =>
								`${word(feature)} ${value(feature, said, units)}${matched ? '' : ' (differed)'}`,
						)
						.join('; '),
			},
		],
		tables.checks,
		'None was logged.',
	);
}

function air({ tables, times, units }: Report): Piece {
	const temperature = (C: number) => format(C, 'temperature', units);
	return table(
		'Air readings',
		[
			{ head: 'At', cell: row => times.moment(row.at) },
			{ head: 'Air', cell: row => temperature(row.air_C), figure: true },
			{ head: 'Humidity', cell: row => format(row.humidity, 'share', 'metric'), figure: true },
			{ head: 'Surface', cell: row => temperature(row.surface_C), figure: true },
			{ head: 'Dew point', cell: row => temperature(row.dew_point_C), figure: true },
			{
				head: 'Margin',
				cell: row => format(row.margin_C, 'temperatureDifference', units),
				figure: true,
			},
			{
				head: 'Limits',
				cell: row => (row.spray ? 'within' : `outside: ${row.reasons.map(word).join(', ')}`),
			},
		],
		tables.air,
		'None was taken.',
	);
}

/** The day hour by hour: faces, flashes, breaks, checks, batches, air. */
export function daySection(report: Report): Section {
	const { faces } = report;
	return {
		id: 'day',
		title: 'The day',
		content: [
			...report.lost.map(one => html`<p class="notice">${lostLine(one)}</p>\n`),
			figure(partsDrawn(report), partsCaption),
			faces.length > 0 ? figure(dayChart(report), dayCaption(report)) : null,
			coats(report),
			breaks(report),
			waits(report),
			checks(report),
			air(report),
		],
	};
}

export const facesSaid = (ids: readonly string[]): string => ids.map(face).join(', ');
