import { Composer, CST, Lexer, LineCounter, type ParsedNode, Parser } from 'yaml';
import type { SheetError } from './errors.ts';
import { brief, unseenIn } from './inert.ts';

const mostDepth = 30;
const mostErrors = 20;
/** Of one complaint, in letters. */
const longest = 500;
const mostIndent = 200;
/** Ten thousand faces are about 300,000. */
const mostLexemes = 800_000;

/** A text under reading: its root, and the errors found so far. */
export type Source = {
	file: string;
	root: ParsedNode | null;
	errors: SheetError[];
	fail(offset: number, says: string): void;
};

/** What no sheet needs and what makes one hard to read or to bound. */
const refused: Partial<Record<string, string>> = {
	alias: 'repeats another place of the file: write it out here',
	anchor: 'names a place to be repeated: leave it out and write each place in full',
	tag: 'is a tag: leave it out',
	'directive-line': 'is a directive: leave it out',
};
const opens = new Set(['flow-seq-start', 'flow-map-start']);
const closes = new Set(['flow-seq-end', 'flow-map-end']);
const nests = new Set(['seq-item-ind', 'explicit-key-ind']);

/** Counts how deep the text nests, lexeme by lexeme: the composer recurses, and must never see a bomb. */
function depthCounter(): (type: string | null) => number {
	let flow = 0;
	let line = 0;
	return type => {
		if (type === null) return flow + line;
		if (opens.has(type)) flow++;
		if (closes.has(type)) flow--;
		if (nests.has(type)) line++;
		if (type === 'newline' || type === 'scalar') line = 0;
		return flow + line;
	};
}

/** Why a text is not read on at a lexeme; undefined: it is. */
function refuser(): (lexeme: string) => string | undefined {
	const depth = depthCounter();
	let lexemes = 0;
	let scalarNext = false;
	return lexeme => {
		const type = scalarNext ? null : CST.tokenType(lexeme);
		scalarNext = lexeme === CST.SCALAR;
		if (++lexemes > mostLexemes) return 'is longer than any job: split it into smaller ones';
		const says = type === null ? undefined : refused[type];
		if (says) return `"${brief(lexeme, 20)}" ${says}`;
		if (depth(type) <= mostDepth) return undefined;
		return `is nested more than ${mostDepth} deep: a bracket or a dash is out of place`;
	};
}

/** Tokens of the text, up to where it goes wrong; null, with a complaint, where it is not to be read at all. */
function tokensOf(text: string, fail: Source['fail']): CST.Token[] | null {
	const parser = new Parser();
	const refusal = refuser();
	const tokens: CST.Token[] = [];
	let broken = 0;
	let documents = 0;
	for (const lexeme of new Lexer().lex(text)) {
		const says = refusal(lexeme);
		if (says) {
			fail(parser.offset, says);
			return null;
		}
		for (const token of parser.next(lexeme)) {
			tokens.push(token);
			if (token.type === 'error') broken++;
			if (token.type === 'document') documents++;
			if (broken >= mostErrors || documents > 1) return tokens;
		}
	}
	tokens.push(...parser.end());
	return tokens;
}

/** What YAML says of a text that it cannot read, in words for the one who wrote it. */
const reworded: Record<string, string> = {
	MULTIPLE_DOCS: 'a second document begins: leave out the line ---',
	TAB_AS_INDENT: 'a tab is used to indent: use spaces',
	MISSING_CHAR: 'a quote, a bracket, a comma or a colon is missing here or before',
	BAD_INDENT: 'is indented differently from its neighbours: line it up',
	UNEXPECTED_TOKEN: 'is out of place: a quote or a bracket is missing, or there is one too many',
	BAD_SCALAR_START: 'begins with a character that YAML keeps for itself: put the value in quotes',
	BLOCK_AS_IMPLICIT_KEY: 'two keys on one line: put the second on a line of its own, or the value in quotes',
	BLOCK_IN_FLOW: 'is a block inside brackets: close the bracket first',
	MULTILINE_IMPLICIT_KEY: 'a key goes over several lines: a colon is missing, or a quote',
	KEY_OVER_1024_CHARS: 'a key is far too long: a colon is missing, or a quote',
	BAD_DQ_ESCAPE: 'a backslash in quotes means something else here: double it',
};

/** A line that begins too far right nests too deep, or is not meant to. */
function findIndented(text: string, fail: Source['fail']): boolean {
	const at = text.search(new RegExp(`^[ \\t]{${mostIndent}}`, 'm'));
	if (at >= 0) fail(at, `is indented by more than ${mostIndent} columns: move it left`);
	return at >= 0;
}

/** Every character that cannot be seen, before YAML reads it. */
function findUnseen(text: string, fail: Source['fail']): boolean {
	const plain = text.replace(/^\uFEFF/, ' ').replaceAll(/[\t\n\r]/g, ' ');
	const found = unseenIn(plain);
	if (found)
		fail(found.index, `holds ${found.code}, which cannot be seen or is obeyed by terminals: take it out`);
	return found !== undefined;
}

/**
 * Reads YAML with every scalar kept as the text that was written, so that no number, date or `no` is guessed at.
 * @param text at most 4 MB
 * @param file named in errors
 * @returns root and errors; where `root` is null nothing below it can be read
 */
export function readDocument(text: string, file: string): Source {
	const lines = new LineCounter();
	lines.addNewLine(0);
	const errors: SheetError[] = [];
	const fail = (offset: number, says: string) => {
		const { line, col } = lines.linePos(offset);
		errors.push({ file, line, column: col, says: brief(says, longest) });
	};
	const source: Source = { file, root: null, errors, fail };
	for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines.addNewLine(at + 1);
	if (findUnseen(text, fail) || findIndented(text, fail)) return source;
	const tokens = tokensOf(text, fail);
	if (!tokens) return source;
	const composer = new Composer({ schema: 'failsafe', uniqueKeys: false, prettyErrors: false });
	const [document, second] = composer.compose(tokens, true, text.length);
	if (!document) return source;
	const [first] = [...document.errors, ...document.warnings].sort((one, other) => one.pos[0] - other.pos[0]);
	if (first) fail(first.pos[0], reworded[first.code] ?? brief(first.message, 120));
	else if (second) fail(second.range[0], reworded.MULTIPLE_DOCS ?? '');
	if (errors.length === 0) source.root = document.contents;
	return source;
}
