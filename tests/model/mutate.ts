import { parseAst } from 'vitest/node';

/** One thing changed in one file of the machines: the text from one place to another replaced. */
export type Mutant = { file: string; line: number; what: string; from: number; to: number; text: string };

type Node = { type: string; start: number; end: number } & Record<string, unknown>;
const isNode = (value: unknown): value is Node =>
	typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

const childrenOf = (node: Node): Node[] =>
	Object.entries(node).flatMap(([key, value]) =>
		key === 'parent' ? [] : Array.isArray(value) ? value.filter(isNode) : isNode(value) ? [value] : [],
	);

const nameOf = (node: unknown): string => {
	if (!isNode(node)) return '';
	return String(node.name ?? node.value ?? '');
};

/**
 * Tests that the compiler asks for and the chart has made already: it lists the type of event that a guard is asked
 * about, so that `event.type === …` in front of it is true, and `?.` or `?? ''` stands where nothing is ever missing.
 */
const forTheCompiler = (text: string) =>
	/^event\.type [!=]== '[\w.-]+'$/.test(text) ||
	/^'\w+' in event$/.test(text) ||
	/^(check !== null|typeof event\.batch === 'string')$/.test(text) ||
	/^(context\.check(ed)?|letter === null)$/.test(text) ||
	/^!?(began|began\??\.size|started|loaded|order|rule)$/.test(text);

/** Every guard, condition and clearing action of a file, deleted or inverted in turn. */
export function mutantsOf(file: string, source: string): Mutant[] {
	const mutants: Mutant[] = [];
	const textOf = ({ start, end }: Node) => source.slice(start, end);
	const short = (text: string) => text.replace(/\s+/g, ' ').slice(0, 70);
	const change = (node: Node, what: string, text: string) => {
		const line = source.slice(0, node.start).split('\n').length;
		mutants.push({
			file,
			line,
			what: `${what}: ${short(textOf(node))}`,
			from: node.start,
			to: node.end,
			text,
		});
	};
	/** A property or element, with the comma behind it. */
	const remove = (node: Node, what: string) => {
		const comma = /^\s*,/.exec(source.slice(node.end))?.[0].length ?? 0;
		change({ ...node, end: node.end + comma }, what, '');
	};

	const condition = (node: Node) => {
		const { left, right, operator } = node as unknown as { left: Node; right: Node; operator: string };
		if (operator !== '&&' && operator !== '||') return;
		for (const side of [left, right])
			if (side.operator !== operator && !forTheCompiler(textOf(side)))
				change(side, `condition deleted (${operator})`, operator === '&&' ? 'true' : 'false');
	};

	/** Named guards of a machine, the other way round; they are left out one by one where they are used. */
	const guards = (object: Node) => {
		for (const property of (object.properties ?? []) as Node[]) {
			const { key, value, shorthand } = property as unknown as { key: Node; value: Node; shorthand: boolean };
			const guard = shorthand ? nameOf(key) : textOf(value);
			const put = (what: string, text: string) => change(property, what, `${nameOf(key)}: ${text}`);
			put('guard inverted', `args => !(${guard})(args)`);
		}
	};

	/** What an action sets: each in turn is not set. */
	const assigned = (node: Node) => {
		for (const object of objectsIn(node))
			for (const property of (object.properties ?? []) as Node[]) remove(property, 'not done');
	};

	const actions = (value: Node) => {
		if (value.type !== 'ArrayExpression') return change(value, 'action deleted', '[]');
		for (const element of (value.elements ?? []) as Node[]) remove(element, 'action deleted');
	};

	const property = (node: Node) => {
		const { key, value } = node as unknown as { key: Node; value: Node };
		const name = nameOf(key);
		if (name === 'guards' && value.type === 'ObjectExpression') guards(value);
		if (name === 'guard') remove(node, 'guard left out');
		if (name === 'actions' && value.type !== 'ObjectExpression' && nameOf(value) !== 'keep') actions(value);
	};

	const visit = (node: Node, parent: Node | null) => {
		switch (node.type) {
			case 'LogicalExpression':
				condition(node);
				break;
			case 'UnaryExpression':
				if (node.operator === '!' && parent?.type !== 'LogicalExpression')
					change(node, 'turned round', textOf(node.argument as Node));
				break;
			case 'BinaryExpression': {
				const { operator, left, right } = node as unknown as { operator: string; left: Node; right: Node };
				/** What stands in a chain of conditions is deleted already, and what makes a whole guard inverted. */
				if (parent?.type === 'LogicalExpression' || parent?.type === 'ArrowFunctionExpression') break;
				if ((operator === '===' || operator === '!==') && !forTheCompiler(textOf(node)))
					change(
						node,
						'turned round',
						`${textOf(left)} ${operator === '===' ? '!==' : '==='} ${textOf(right)}`,
					);
				break;
			}
			case 'CallExpression':
				if (nameOf(node.callee) === 'assign') assigned((node.arguments as Node[])[0] as Node);
				if (nameOf(node.callee) === 'not')
					change(node, 'turned round', textOf((node.arguments as Node[])[0] as Node));
				break;
			case 'Property':
				property(node);
				break;
			case 'ArrayExpression':
				if (parent?.type === 'VariableDeclarator' || (isNode(parent) && parent.type === 'TSAsExpression'))
					for (const element of (node.elements ?? []) as Node[]) remove(element, 'left out of a list');
				break;
			case 'Literal':
				if (node.value === 'full' && parent?.type !== 'TSLiteralType')
					change(node, 'short for full', `'short'`);
				break;
		}
		for (const child of childrenOf(node))
			if (!child.type.startsWith('TS') || child.type === 'TSAsExpression') visit(child, node);
	};
	visit(parseAst(source, { lang: 'ts' }) as unknown as Node, null);
	return mutants;
}

/** Object literals that an `assign` sets: its own, or what its function comes to. */
function objectsIn(node: Node): Node[] {
	switch (node.type) {
		case 'ObjectExpression':
			return [node];
		case 'ArrowFunctionExpression':
			return objectsIn(node.body as Node);
		case 'ConditionalExpression':
			return [node.consequent, node.alternate].flatMap(one => objectsIn(one as Node));
		case 'BlockStatement':
			return (node.body as Node[]).flatMap(objectsIn);
		case 'ReturnStatement':
			return isNode(node.argument) ? objectsIn(node.argument) : [];
		case 'ParenthesizedExpression':
		case 'TSAsExpression':
			return objectsIn(node.expression as Node);
		default:
			return [];
	}
}

export const applied = (source: string, { from, to, text }: Mutant): string =>
	source.slice(0, from) + text + source.slice(to);
