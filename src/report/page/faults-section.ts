import type { Trace } from '../../trace/trace.ts';
import { causeSaid } from '../../words/summary-trace.ts';
import { lookedAt } from '../pictures/face-told.ts';
import { face, plain, spot, word } from '../said.ts';
import { isVerdict } from '../tables/happenings.ts';
import type { Traced } from '../traced.ts';
import type { Report, Section } from './context.ts';
import { facesSaid } from './day-section.ts';
import { html, type Markup, type Piece } from './markup.ts';
import { table } from './table.ts';

type Spot = { face: string; coat: number };
type Judged = { verdict: string; reason: string };

const key = ({ face: id, coat }: Spot): string => `${coat}#${id}`;

/** So many faces are named; the others have their numbers in the picture of the parts. */
const named = 8;

/** What else may have got it, in the order of looking. */
function alsoLook(trace: Trace, asked: string): Markup {
	const faces = lookedAt(trace, asked);
	if (faces.length === 0) return html`<p>No other face may have got it.</p>`;
	const more = faces.length > named ? `, and ${faces.length - named} more` : '';
	const first = faces.slice(0, named).map((id, nth) => `${nth + 1} ${face(id)}`);
	return html`<p>May have got it too, to be looked at in this order: ${first.join(', ')}${more}. Each has its number in the picture of the parts.</p>`;
}

const list = (lines: readonly string[]): Markup =>
	html`<ul>${lines.map(line => html`<li>${line}</li>`)}</ul>`;

/** Verdicts given so far; the last one on a coat counts. */
function verdicts({ tables }: Report): Map<string, Judged> {
	const given = new Map<string, Judged>();
	for (const { face: id, coat, did, detail } of tables.work)
		if (coat !== null && isVerdict(did)) given.set(key({ face: id, coat }), { verdict: did, reason: detail });
	return given;
}

function traced(report: Report, { fault, face: id, coat, trace, why }: Traced): Markup {
	const { times, faults } = report;
	const title = html`<h3>Where it began: ${plain(faults.faults[fault]?.say ?? word(fault))} on ${spot(id, coat)}</h3>\n`;
	if (!trace) return html`${title}<p>No trace: ${plain(why ?? '')}.</p>\n`;
	const given = verdicts(report);
	// What is said of the word stands above already.
	const missing = trace.told ? trace.missing : trace.missing.slice(1);
	const [first] = trace.candidates;
	const claim =
		first && trace.told ? `${word(trace.word)}: ${plain(causeSaid(first, faults.causes))}.` : null;
	const looks = trace.walk.filter(one => one.face === null);
	return html`${title}<p>${plain(trace.isIsNot)}</p>
${claim ? html`<p>${claim}</p>\n` : html`<p class="notice">The records cannot tell one cause from the others.</p>\n`}
<p>It began between ${times.moment(trace.bracket.from)} and ${times.moment(trace.bracket.to)}, by the first of them.</p>
${table(
	'What may have put it in, likeliest first',
	[
		{ head: 'Cause', cell: row => plain(causeSaid(row, faults.causes)) },
		{ head: 'Where', cell: row => plain(row.extent) },
		{ head: 'For', cell: row => row.for.map(plain).join('; ') },
		{ head: 'Against', cell: row => row.against.map(plain).join('; ') },
	],
	trace.candidates.slice(0, 6),
	'Nothing in the records.',
)}
${alsoLook(trace, id)}
${table(
	'Looked at so far',
	[
		{ head: 'Face', cell: row => spot(row.face, row.coat) },
		{
			head: 'Judged',
			cell: row => {
				const judged = given.get(key(row));
				return judged ? [word(judged.verdict), judged.reason === '' ? null : `: ${judged.reason}`] : '';
			},
		},
	],
	trace.exposed.filter(row => given.has(key(row))),
	'None of those that may have got it.',
)}
${looks.length > 0 ? html`<p>What would part the causes:</p>${list(looks.map(one => `${one.do}, ${one.minutes} min`))}` : null}
${missing.length > 0 ? html`<p>Not recorded, and would have settled it:</p>${list(missing)}` : null}`;
}

/** Faults seen, parts set aside, and the trace of each fault. */
export function faultsSection(report: Report): Section {
	const { tables, times, faults, traces } = report;
	const content: Piece = [
		table(
			'Faults seen',
			[
				{ head: 'At', cell: row => times.moment(row.at) },
				{ head: 'Fault', cell: row => plain(faults.faults[row.fault]?.say ?? word(row.fault)) },
				{ head: 'Where', cell: row => (row.gun ? 'on the gun' : spot(row.face, row.coat)) },
				{ head: 'Done about it', cell: row => (row.remedy === null ? '' : word(row.remedy)) },
			],
			tables.faults,
			'None was logged.',
		),
		table(
			'Set aside',
			[
				{ head: 'Part', cell: row => face(row.part) },
				{ head: 'At', cell: row => times.moment(row.at), figure: true },
				{ head: 'Why', cell: row => word(row.why) },
				{ head: 'Faces', cell: row => facesSaid(row.faces) },
			],
			tables.aside,
			'No part.',
		),
		traces.map(one => traced(report, one)),
	];
	return { id: 'faults', title: 'Faults and where they began', content };
}
