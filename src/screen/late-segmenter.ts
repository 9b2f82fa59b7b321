/**
 * Stands in the bundle for `Intl.Segmenter`: the tables that one reads take a tenth of a start, and Ink makes four
 * before it has a text to cut. This one is made when a text is.
 */
export function LateSegmenter(...made: ConstructorParameters<typeof Intl.Segmenter>) {
	let real: Intl.Segmenter | undefined;
	return {
		segment(text: string) {
			real ??= new globalThis.Intl.Segmenter(...made);
			return real.segment(text);
		},
	};
}
