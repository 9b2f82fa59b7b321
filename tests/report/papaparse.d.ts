declare module 'papaparse' {
	const papa: {
		parse<Row>(
			text: string,
			options: { newline: string; delimiter: string },
		): { data: Row[]; errors: { message: string }[] };
	};
	export = papa;
}
