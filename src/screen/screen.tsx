import { Box, Text } from 'ink';
import type { Corner } from '../day/view.ts';
import type { Arrangement } from './arrange.ts';
import { Drawing } from './frames.tsx';
import { columnsOf, oneColumnEach } from './inert.ts';
import type { GlyphStyle } from './letters.ts';

/** Marks that hug the corner an answer belongs to; the heavy ones say that it is the one chosen. */
type Marks = { corner: Record<Corner, string>; left: string; right: string; top: string; bottom: string };

const half: Marks = {
	corner: { topLeft: '▛', topRight: '▜', bottomLeft: '▙', bottomRight: '▟' },
	left: '▌',
	right: '▐',
	top: '▀',
	bottom: '▄',
};
const ascii: Marks = {
	corner: { topLeft: '/', topRight: '\\', bottomLeft: '\\', bottomRight: '/' },
	left: '|',
	right: '|',
	top: '-',
	bottom: '-',
};
const heavy = (mark: string): Marks => ({
	corner: { topLeft: mark, topRight: mark, bottomLeft: mark, bottomRight: mark },
	left: mark,
	right: mark,
	top: mark,
	bottom: mark,
});
const marksOf = (style: GlyphStyle, chosen: boolean): Marks => {
	if (chosen) return heavy(style === 'half' ? '█' : '#');
	return style === 'half' ? half : ascii;
};

/** One answer with its mark, as rows of text of one width. */
function answerRows(corner: Corner, rows: string[], height: number, marks: Marks): string[] {
	const onLeft = corner === 'topLeft' || corner === 'bottomLeft';
	const onTop = corner === 'topLeft' || corner === 'topRight';
	const beside = (row: string, mark: string) => (onLeft ? `${mark} ${row}` : `${row} ${mark}`);
	if (height === 1) return rows.map(row => beside(row, marks.corner[corner]));
	const width = Math.max(...rows.map(columnsOf));
	const padded = Array.from({ length: height - 1 }, (_, index) => {
		const row = rows[index] ?? '';
		return onLeft ? row.padEnd(width) : row.padStart(width);
	});
	const sides = padded.map(row => beside(row, onLeft ? marks.left : marks.right));
	const edge = (onTop ? marks.top : marks.bottom).repeat(width + 1);
	const bar = onLeft ? marks.corner[corner] + edge : edge + marks.corner[corner];
	return onTop ? [bar, ...sides] : [...sides, bar];
}

function Answer({ of, at, height }: { of: Arrangement; at: Corner; height: number }) {
	const answer = of.answers[at];
	if (!answer) return <Text> </Text>;
	const rows = answerRows(at, answer.rows, height, marksOf(of.style, answer.chosen));
	return <Rows rows={rows} />;
}

type EdgeProps = { of: Arrangement; left: Corner; right: Corner; height: number; hint: string };

function Edge({ of, left, right, height, hint }: EdgeProps) {
	return (
		<Box height={height} justifyContent="space-between" flexShrink={0}>
			<Answer of={of} at={left} height={height} />
			{hint !== '' && (
				<Box alignSelf="flex-end" flexShrink={1}>
					<Text wrap="truncate">{hint}</Text>
				</Box>
			)}
			<Answer of={of} at={right} height={height} />
		</Box>
	);
}

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
			<Edge of={of} left="topLeft" right="topRight" height={of.topRows} hint="" />
			<Box justifyContent="center" flexShrink={0} height={1}>
				<Text wrap="truncate">{of.status}</Text>
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
			<Edge of={of} left="bottomLeft" right="bottomRight" height={of.bottomRows} hint={of.hint} />
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
