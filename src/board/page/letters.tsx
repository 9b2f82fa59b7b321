import { tallFont } from '../../screen/glyphs.ts';

/** Letters as one path of the screen's own alphabet, seven units high: no font decides how large they are. */

const gap = 1;

/** Each run of a row as a rectangle. */
function pathOf(glyph: readonly string[], left: number): string {
	return glyph
		.flatMap((row, y) =>
			[...row.matchAll(/#+/g)].map(
				({ 0: run, index }) => `M${left + index} ${y}h${run.length}v1h-${run.length}z`,
			),
		)
		.join('');
}

/** A word in capitals; what the alphabet has not is left out. */
export function Letters({ text, kind }: { text: string; kind: string }) {
	let width = -gap;
	let path = '';
	for (const letter of text.toUpperCase()) {
		const glyph = tallFont.glyphs.get(letter);
		if (!glyph) continue;
		path += pathOf(glyph, width + gap);
		width += gap + (glyph[0]?.length ?? 0);
	}
	return (
		<svg
			class={`letters ${kind}`}
			role="img"
			aria-label={text}
			viewBox={`0 0 ${Math.max(1, width)} ${tallFont.height}`}
			preserveAspectRatio="xMinYMid meet"
		>
			<path d={path} />
		</svg>
	);
}
