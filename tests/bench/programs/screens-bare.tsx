import { Box, render, Text, useInput } from 'ink';
import { useState } from 'react';
import { arrange, nothingPassing } from '../../../src/screen/arrange.ts';
import { viewOf } from '../../screen/views.ts';

/** The same boxes and glyphs by Ink alone: laid out beforehand, drawn as text, written by Ink to the terminal. */
const arranged = ['pattern', 'trouble'].map(name =>
	arrange(viewOf(name), { columns: 80, rows: 24 }, nothingPassing, 'half'),
);

function Edge({
	at,
	left,
	right,
}: {
	at: number;
	left: 'topLeft' | 'bottomLeft';
	right: 'topRight' | 'bottomRight';
}) {
	const answers = arranged[at]?.answers;
	return (
		<Box justifyContent="space-between">
			<Text>{answers?.[left]?.rows.join('\n')}</Text>
			<Text>{answers?.[right]?.rows.join('\n')}</Text>
		</Box>
	);
}

function Screens() {
	const [at, turn] = useState(0);
	useInput(() => turn(before => 1 - before));
	const of = arranged[at];
	return (
		<Box flexDirection="column" width={80} height={23}>
			<Edge at={at} left="topLeft" right="topRight" />
			<Box justifyContent="center">
				<Text>{of?.status}</Text>
			</Box>
			<Box flexDirection="column" flexGrow={1} justifyContent="space-evenly" alignItems="center">
				<Text>{of?.word.join('\n')}</Text>
				<Text>{of?.name.join('\n')}</Text>
				<Text>{of?.say.join('\n')}</Text>
			</Box>
			<Edge at={at} left="bottomLeft" right="bottomRight" />
		</Box>
	);
}

render(<Screens />);
