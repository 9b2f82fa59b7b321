test('no question about the gun holds a word that answers it', () => {
	const days = [0, 1, 2].map(seed => rehearsed({ seed }));
	const words = {
		horns: /level|upright|between/i,
		flooded: /even|ends|middle/i,
		pattern: /tall|wide|round/i,
	};
	for (const day of days) {
		for (let count = 0; count < 9; count++) {
			for (const [ask, answer] of Object.entries(words)) {
				day.until(line => line.ask === ask || line.ask === 'go');
				if (day.line().ask !== ask) continue;
				const { say, lines, do: instructions, open, gun } = day.line();
				expect(JSON.stringify({ say, lines, instructions, open, gun })).not.toMatch(answer);
			}
			day.until(({ ask }) => ask === 'go');
			day.send('hold');
			day.pick('back');
		}
	}
});
