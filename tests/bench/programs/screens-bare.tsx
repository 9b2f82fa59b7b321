import { Box, render, Text, useInput } from 'ink';
import { useState } from 'react';
import { arrange } from '../../../src/screen/arrange.ts';
import { nothingPassing } from '../../../src/screen/passing.ts';
import { viewOf } from '../../screen/views.ts';

/** The same boxes and glyphs by Ink alone: laid out beforehand, drawn as text, written by Ink to the terminal. */
const arranged = ['pattern', 'trouble'].map(name =>
	arrange(viewOf(name), { columns: 80, rows: 24 }, nothingPassing, 'half'),
);

function Screens() {
	const [at, turn] = useState(0);
	useInput(() => turn(before => 1 - before));
	const of = arranged[at];
	return (
		<Box flexDirection="column" width={80} height={23}>
			<Text>{of?.top.join('\n')}</Text>
			<Box flexDirection="column" flexGrow={1} justifyContent="space-evenly" alignItems="center">
				<Text>{of?.word.join('\n')}</Text>
				<Text>{of?.name.join('\n')}</Text>
				<Text>{of?.say.join('\n')}</Text>
			</Box>
			<Text>{of?.bottom.join('\n')}</Text>
		</Box>
	);
}

render(<Screens />);
