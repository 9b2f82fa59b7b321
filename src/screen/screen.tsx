import { Box } from 'ink';
import type { Arrangement } from './arrange.ts';
import { Drawing } from './frames.tsx';

/** One screen of the day: answers in its corners, where one is, the one word, the face, and what to do. */
export function Screen({ of }: { of: Arrangement }) {
	return (
		<Box flexDirection="column" width={of.columns} height={of.height} overflow="hidden">
			<Drawing rows={of.top} />
			<Box flexDirection="column" alignItems="center" flexShrink={0}>
				<Drawing rows={of.status} />
			</Box>
			<Box flexDirection="column" flexGrow={1} justifyContent="space-evenly" alignItems="center">
				<Drawing rows={of.word} />
				<Drawing rows={of.name} />
				<Box flexShrink={0}>
					<Box flexDirection="column" justifyContent="center">
						<Drawing rows={of.say} />
						<Drawing rows={of.lines} />
					</Box>
					{of.picture.length > 0 && (
						<Box marginLeft={4} flexShrink={0}>
							<Drawing rows={of.picture} />
						</Box>
					)}
				</Box>
			</Box>
			<Drawing rows={of.bottom} />
		</Box>
	);
}

/** Asks for a larger window; the day goes on behind it. */
export function TooSmall({ columns, rows, least }: { columns: number; rows: number; least: string }) {
	const says = [
		'Make this window larger:',
		`at least ${least}, now ${columns} x ${rows}.`,
		'Nothing is lost. Space: hold.',
	];
	return (
		<Box width={columns} height={Math.max(1, rows - 1)} overflow="hidden">
			<Drawing rows={says} />
		</Box>
	);
}
