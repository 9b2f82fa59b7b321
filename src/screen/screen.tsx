import { Box, Text } from 'ink';
import type { Arrangement } from './arrange.ts';
import { Drawing } from './frames.tsx';
import { oneColumnEach } from './inert.ts';

/** What is drawn over several rows is placed as a drawing; a single row is text, of whatever width. */
function Rows({ rows }: { rows: string[] }) {
	if (rows.length === 0) return null;
	const [first] = rows;
	const even = rows.length > 1 && rows.every(row => row.length === first?.length && oneColumnEach.test(row));
	if (even) return <Drawing rows={rows} />;
	return (
		<Box flexShrink={0}>
			<Text wrap="truncate">{rows.join('\n')}</Text>
		</Box>
	);
}

/** One screen of the day: answers in its corners, where one is, the one word, the face, and what to do. */
export function Screen({ of }: { of: Arrangement }) {
	return (
		<Box flexDirection="column" width={of.columns} height={of.height} overflow="hidden">
			<Rows rows={of.top} />
			<Box flexDirection="column" alignItems="center" flexShrink={0}>
				<Rows rows={of.status} />
			</Box>
			<Box flexDirection="column" flexGrow={1} justifyContent="space-evenly" alignItems="center">
				<Rows rows={of.word} />
				<Rows rows={of.name} />
				<Box flexShrink={0}>
					<Box flexDirection="column" justifyContent="center">
						<Rows rows={of.say} />
						<Rows rows={of.lines} />
					</Box>
					{of.picture.length > 0 && (
						<Box marginLeft={4} flexShrink={0}>
							<Rows rows={of.picture} />
						</Box>
					)}
				</Box>
			</Box>
			<Rows rows={of.bottom} />
		</Box>
	);
}

/** Asks for a larger window; the day goes on behind it. */
export function TooSmall({ columns, rows, least }: { columns: number; rows: number; least: string }) {
	const height = Math.max(1, rows - 1);
	return (
		<Box flexDirection="column" width={columns} height={height} overflow="hidden">
			<Text wrap="truncate">Make this window larger:</Text>
			{height > 1 && <Text wrap="truncate">{`at least ${least}, now ${columns} x ${rows}.`}</Text>}
			{height > 2 && <Text wrap="truncate">Nothing is lost. Space: hold.</Text>}
		</Box>
	);
}
