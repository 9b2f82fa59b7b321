import { html, type Markup, type Piece } from './markup.ts';

export type Column<Row> = {
	head: string;
	cell: (row: Row) => Piece;
	/** Figures stand to the right. */
	figure?: true;
};

/** A figure and its unit stay on one line, however narrow the paper. */
const unbroken = (piece: Piece): Piece =>
	typeof piece === 'string' ? piece.replace(/(\d) (?=[^\s\d])/g, '$1\u00a0') : piece;

/**
 * A table that stays one for a screen reader when a narrow screen shows each row as a block: hence the roles.
 * The first column heads its row. It is folded until it is asked for; on paper it stands where the reader wants tables.
 */
export function table<Row>(
	caption: string,
	columns: readonly Column<Row>[],
	rows: readonly Row[],
	none = 'Nothing.',
): Markup {
	if (rows.length === 0) return html`<p class="none"><strong>${caption}:</strong> ${none}</p>`;
	const head = columns.map(
		({ head: text, figure }) =>
			html`<th role="columnheader" scope="col" class="${figure ? 'figure' : 'words'}">${text}</th>`,
	);
	const cellOf = (row: Row) => (column: Column<Row>, nth: number) => {
		const kind = column.figure ? 'figure' : 'words';
		const said = unbroken(column.cell(row));
		return nth === 0
			? html`<th role="rowheader" scope="row" class="${kind}">${said}</th>`
			: html`<td role="cell" data-head="${column.head}" class="${kind}">${said}</td>`;
	};
	const body = rows.map(row => html`<tr role="row">${columns.map(cellOf(row))}</tr>\n`);
	return html`<details><summary>${caption} (${rows.length})</summary>
<table role="table">
<caption>${caption}</caption>
<thead role="rowgroup"><tr role="row">${head}</tr></thead>
<tbody role="rowgroup">
${body}</tbody>
</table>
</details>`;
}
