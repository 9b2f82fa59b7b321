import path from 'node:path';

/**
 * How the program is bundled, for the build and for whatever is measured beside it. Plain JavaScript: it runs on Node
 * as it stands, in the project's folder.
 * @import { BuildOptions, Metafile, Plugin } from 'esbuild'
 */

/**
 * Where DEV is set, Ink reaches for a debugging aid of 49 kB with a web socket in it: an empty file stands there.
 * @type {Plugin}
 */
const withoutDevtools = {
	name: 'without devtools',
	setup(build) {
		const nothing = { path: path.resolve('src/screen/no-devtools.cjs') };
		build.onResolve({ filter: /^\.\/devtools\.js$/ }, ({ importer }) =>
			/\bink[/\\]build\b/.test(importer) ? nothing : null,
		);
	},
};

/**
 * What any program needs to be bundled as ours is.
 * @satisfies {BuildOptions}
 */
const bundling = {
	bundle: true,
	platform: /** @type {const} */ ('node'),
	target: 'node20',
	format: /** @type {const} */ ('esm'),
	minify: true,
	legalComments: /** @type {const} */ ('none'),
	logLevel: /** @type {const} */ ('warning'),
	// React and xstate leave out what they check for developers.
	define: { 'process.env.NODE_ENV': '"production"' },
	// Libraries in CommonJS ask for Node's own modules by `require`, which an ES module does not have.
	banner: { js: "import{createRequire as banner}from'node:module';const require=banner(import.meta.url);" },
	plugins: [withoutDevtools],
};

/**
 * What our own program is spared at every start. A library that it is bundled with cannot be asked for less.
 * @satisfies {BuildOptions}
 */
const savings = {
	define: {
		// Naming `fetch` loads Node's web client, and yoga names it; nothing here asks a network.
		fetch: 'undefined',
		// The tables of words that a segmenter reads take a tenth of a start: one is made when a text is cut.
		'Intl.Segmenter': 'LateSegmenter',
	},
	inject: ['./src/screen/late-segmenter.ts'],
	alias: {
		// Node is given yaml in CommonJS, which is bundled whole; its ES modules leave out what nobody asks for.
		yaml: './node_modules/yaml/browser/index.js',
		// The screens count columns themselves: Ink then reads no tables of emoji.
		'string-width': './src/screen/string-width.cjs',
	},
	// For Node 20 such a literal is written as `new RegExp`, compiled at once; as it stands it is compiled when used.
	supported: { 'regexp-unicode-property-escapes': true, 'regexp-set-notation': true },
};

/**
 * The options of a bundle of ours, or of one `without: 'savings'`: Ink, React and the rest as they come.
 * @param {{ without?: 'savings' }} [given]
 * @returns {BuildOptions}
 */
export const options = ({ without } = {}) =>
	without ? bundling : { ...bundling, ...savings, define: { ...bundling.define, ...savings.define } };

/**
 * The program itself: parts that a command does not need are files of their own.
 * @type {BuildOptions & { metafile: true }}
 */
export const program = {
	...options(),
	entryPoints: { fanwise: 'src/cli/fanwise.ts' },
	splitting: true,
	metafile: true,
	outdir: 'dist',
};

/**
 * The page of the board, for a browser: with nothing of Node, and with nothing that the program spares itself.
 * @type {BuildOptions & { metafile: true }}
 */
export const page = {
	bundle: true,
	minify: true,
	format: 'esm',
	target: 'es2022',
	jsx: 'automatic',
	jsxImportSource: 'preact',
	legalComments: 'none',
	logLevel: 'warning',
	entryPoints: { page: 'src/board/page/main.tsx', style: 'src/board/page/style.css' },
	metafile: true,
	outdir: 'dist/board',
};

/**
 * The files that are in a bundle with so much as a byte.
 * @param {Metafile} metafile
 */
export const filesIn = ({ outputs }) => [
	...new Set(
		Object.values(outputs).flatMap(({ inputs }) =>
			Object.entries(inputs).flatMap(([file, { bytesInOutput }]) => (bytesInOutput > 0 ? [file] : [])),
		),
	),
];
