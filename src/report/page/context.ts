import type { Lost } from '../../day/file/lost.ts';
import type { FaultData } from '../../trace/faults.ts';
import type { UnitSystem } from '../../trade/quantity.ts';
import type { Day } from '../tables/day.ts';
import type { Tables } from '../tables/tables.ts';
import type { Times } from '../times.ts';
import type { Traced } from '../traced.ts';
import type { Verdict } from '../verdict.ts';
import { html, type Markup, type Piece } from './markup.ts';

/** All that a section of the page draws from. */
export type Report = {
	day: Day;
	tables: Tables;
	/** What its disk has lost of the day. */
	lost: readonly Lost[];
	traces: readonly Traced[];
	verdict: Verdict;
	faults: FaultData;
	times: Times;
	units: UnitSystem;
	/** Faces with anything to show, in the order of the sheet. */
	faces: readonly string[];
	/** Where the hours drawn end; what was added later stands in the tables. */
	end: string;
};

export type Section = { id: string; title: string; content: Piece };

export const section = ({ id, title, content }: Section): Markup =>
	html`<section aria-labelledby="${id}">
<h2 id="${id}">${title}</h2>
${content}
</section>
`;

/** Pictures with the words that read them. */
export const figure = (pictures: Piece, caption: string): Markup =>
	html`<figure>${pictures}<figcaption>${caption}</figcaption></figure>\n`;

export const count = (many: number, one: string, more = `${one}s`): string =>
	`${many} ${many === 1 ? one : more}`;
