import { duration } from '../../words/say.ts';
import { plain } from '../said.ts';
import { seconds } from '../tables/day.ts';
import { count, type Report, section } from './context.ts';
import { daySection } from './day-section.ts';
import { faultsSection } from './faults-section.ts';
import { fanSection, filmSection } from './film-section.ts';
import { batchesSection, overridesSection, readingsSection, workSection } from './log-sections.ts';
import { mapSection } from './map-section.ts';
import { html, type Markup } from './markup.ts';
import { style } from './style.ts';
import { windowsSection } from './windows-section.ts';

/** Nothing is fetched and nothing runs, and a browser is told so. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

function under({ tables, times }: Report): string {
	const { opened, closed } = tables.day;
	const ends = closed === null ? 'not closed' : `closed ${times.moment(closed)}`;
	return `${times.date(opened)}, opened ${times.clock(opened)}, ${ends}. Times in ${times.zone}.`;
}

/** Done, to be looked at, due: the summary's own sentences, before anything else. */
function verdict({ verdict: { done, look, next } }: Report): Markup {
	const part = (title: string, says: readonly string[]) =>
		html`<div><h3>${title}</h3><ul>${says.map(one => html`<li>${one}</li>`)}</ul></div>\n`;
	return html`<section class="verdict" aria-labelledby="verdict">
<h2 id="verdict">In short</h2>
${part('Done', done)}${part('Look at', look)}${part('Due next', next)}</section>
`;
}

function counts({ tables }: Report): Markup {
	const { counts: of } = tables;
	const few = (many: number, one: string, more: string): [number, string] => [many, many === 1 ? one : more];
	const boxes: [string | number, string][] = [
		[
			`${of.coats_laid}`,
			`laid whole, on ${count(of.faces_sprayed, 'face')}; ${of.coats_on} of ${of.coats_planned} on`,
		],
		[duration(of.sprayed_s), 'of spraying'],
		few(of.breaks, `break, ${duration(of.broken_off_s)}`, `breaks, ${duration(of.broken_off_s)} in all`),
		few(of.checks_passed, 'gun check passed', 'gun checks passed'),
		[of.first_differed, `of ${count(of.first_readings, 'first reading')} differed`],
		few(of.overrides, 'override', 'overrides'),
		few(of.faults, 'fault seen', 'faults seen'),
		few(of.batches, 'batch mixed', 'batches mixed'),
		few(of.films_read, 'film read', 'films read'),
	];
	return html`<ul class="counts">${boxes.map(([many, what]) => html`<li><strong>${many}</strong> ${what}</li>`)}</ul>\n`;
}

/** The whole report as one page: no other file, no network, no script. */
export function page(report: Report): string {
	const { tables, day } = report;
	const sections = [
		daySection(report),
		filmSection(report),
		mapSection(report),
		fanSection(report),
		windowsSection(report),
		faultsSection(report),
		readingsSection(report),
		overridesSection(report),
		batchesSection(report),
		workSection(report),
	];
	const job = plain(tables.day.job);
	const lasted = duration(seconds(tables.day.opened, report.end));
	return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${{ markup: policy }}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${job}: report of a spraying day</title>
<style>${{ markup: style }}</style>
</head>
<body>
<header>
<h1>${job}</h1>
<p class="under">${under(report)}</p>
${tables.day.clock === 'moved' ? html`<p class="notice">Rehearsed: the clock was moved, and nothing was sprayed.</p>\n` : null}</header>
<main>
${verdict(report)}${counts(report)}<nav aria-label="Sections"><ul>${sections.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
<p class="print"><label><input type="checkbox" id="print-tables"> Print the tables too</label></p>
${sections.map(section)}</main>
<footer><p>From a day file of ${count(day.records.length, 'record')} over ${lasted}, written by fanwise ${plain(tables.day.program)}. It says what was keyed, not what was so: the program cannot see the gun. The data sheet, local codes and licensed practice decide.</p></footer>
</body>
</html>
`.markup;
}
