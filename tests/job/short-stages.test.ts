import { describe, expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { complaintsOf, exampleText } from './altered.ts';

function jobOf(text: string): Job {
	const loaded = parseJob(text, 'own.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}

const [before = '', rest = ''] = exampleText
	.replace('        crosswise: [2, 4]\n', '')
	.split(/(?<=\nstages:\n)/);
const [, after = ''] = rest.split(/(?=\norder:)/);
const withStages = (...stages: string[]) =>
	`${before}${stages.map(stage => `  - ${stage}\n`).join('')}${after}`;
const same = (short: string[], long: string[]) =>
	expect(jobOf(withStages(...short))).toEqual(jobOf(withStages(...long)));
const primer = '{ spray: primer, coats: [medium, full] }';

describe('stages in a line', () => {
	test('words of preparation may share a line', () => {
		same(['wipe, tack', primer, 'unmask,tack'], ['wipe', 'tack', primer, 'unmask', 'tack']);
	});

	test('… and the faces that they are for', () => {
		const only = 'only: [left door]';
		same(
			['{ tack: yes, sand: 400 grit, wipe: yes, only: [left door] }', primer],
			[`{ tack: yes, ${only} }`, `{ sand: 400 grit, ${only} }`, `{ wipe: yes, ${only} }`, primer],
		);
	});

	test('a kind of coat is laid so many times', () => {
		same(['{ spray: primer, coats: 2 full }'], ['{ spray: primer, coats: [full, full] }']);
		same(['{ spray: primer, coats: [medium, 2 full] }'], ['{ spray: primer, coats: [medium, full, full] }']);
		same(['{ spray: primer, coats: full }'], ['{ spray: primer, coats: [full] }']);
	});

	test('the first wipe may be called what it is, and is a wipe', () => {
		same(['degrease', primer], ['{ wipe: yes, name: degrease }', primer]);
	});

	test('a night is as long as the shop is open', () => {
		const then = '{ spray: topcoat, coats: full }';
		same([primer, 'wait: overnight', 'sand', then], [primer, '{ wait: 9 h, name: overnight }', 'sand', then]);
	});

	test('a night may end at an hour, written either way', () => {
		const then = '{ spray: topcoat, coats: full }';
		same([primer, 'wait: until 07:30', 'sand', then], [primer, '{ until: 07:30 }', 'sand', then]);
		const { stages, faces } = jobOf(withStages(primer, '{ until: 07:30 }', 'sand', then));
		expect(stages[1]).toEqual({ kind: 'wait', name: 'until 07:30', hours: 9, until_min: 450 });
		expect(faces[0]?.coats[2]).toMatchObject({ wait_h: 9, until_min: 450 });
		const behind = jobOf(withStages(primer, 'sand', '{ until: 07:30 }', then));
		expect(behind.faces[0]?.coats[2]).toMatchObject({ wait_h: 0, prep: [{ then_h: 9, until_min: 450 }] });
	});

	test.each([
		['wipe, takc', /stages: found "wipe, takc"; allowed: sand, .*, degrease; nearest: tack$/],
		[
			'{ sand: yes, wait: 2 h }',
			/a stage does one thing: found wait and sand; allowed: one of spray, wait, /,
		],
		['{ spray: primer, coats: 2 ful }', /coats: found "2 ful"; allowed: .*as in "2 full"; nearest: full$/],
		['{ spray: primer, coats: 0 full }', /coats: found "0 full"; allowed/],
		['{ spray: primer, coats: 900 full }', /coats: found "900 full"; allowed/],
		[
			'wait: overnigth',
			/wait: found "overnigth"; a time begins with a number, as in "45 min", or overnight, or as in "until 08:00"$/,
		],
		['wait: until 8', /wait: found "until 8"; .*or as in "until 08:00"$/],
		['{ until: 24:00 }', /until: found "24:00"; a time of day is wanted, as in "08:00"$/],
		['{ wipe: yes, coats for: { left door: full } }', /coats for: only a spray stage has coats/],
	])('%s is refused', (stage, says) => {
		expect(complaintsOf(withStages(stage, primer))).toEqual([expect.stringMatching(says)]);
	});

	test('no night where the sheet has no hours', () => {
		const text = withStages(primer, 'wait: overnight', 'sand', '{ spray: topcoat, coats: full }');
		expect(complaintsOf(text.replace('  day: 9 h\n', ''))).toEqual([
			expect.stringMatching(
				/wait: overnight wants the hours that the shop is open.*write "day: 9 h" under shop$/,
			),
		]);
	});
});

describe('coats of some faces', () => {
	const of = (own: string, only = '') =>
		jobOf(withStages(`{ spray: primer, coats: full, coats for: { ${own} }${only} }`));
	const kinds = (job: Job, id: string) =>
		job.faces.find(face => face.id === id)?.coats.map(({ kind }) => kind);

	test('one face gets a coat more than the others, and the stage a round more', () => {
		const job = of('counter lid/top: [medium, 2 full]');
		expect(kinds(job, 'counter lid/top')).toEqual(['medium', 'full', 'full']);
		expect(kinds(job, 'counter lid/edges')).toEqual(['full']);
		expect(job.stages).toMatchObject([{ coats: ['medium', 'full', 'full'] }]);
	});

	test('each face counts its own', () => {
		const job = of('edges: 2 full');
		const counts = job.faces.map(({ name, coats }) => [name, coats.map(({ ofStage }) => ofStage)]);
		for (const [name, its] of counts)
			expect(its).toEqual(
				name === 'edges'
					? [
							[1, 2],
							[2, 2],
						]
					: [[1, 1]],
			);
	});

	test('what is left out of the stage gets none of them', () => {
		const own = 'coats for: { top: 3 full, left door: 2 full }, leave out: [counter lid/top]';
		const job = jobOf(withStages('{ spray: primer, coats: full }', `{ spray: primer, coats: full, ${own} }`));
		expect(kinds(job, 'counter lid/top')).toEqual(['full']);
		expect(job.stages).toMatchObject([{ coats: ['full'] }, { coats: ['full', 'full'] }]);
	});

	test('a face that is not there, and a kind without a film, are complained of', () => {
		const text = (own: string) => withStages(`{ spray: primer, coats: full, coats for: { ${own} } }`);
		expect(complaintsOf(text('lid top: 2 full'))).toEqual([
			expect.stringMatching(/stage, coats for: found "lid top"; allowed: canopy rail, /),
		]);
		expect(complaintsOf(text('top: tack'))).toEqual([
			expect.stringMatching(
				/coats: primer gives no film for this coat; found "tack"; allowed: medium, full$/,
			),
		]);
	});
});

describe('work that waits for a coat', () => {
	const stages = ['{ spray: primer, coats: [medium, full] }', '{ unmask: dry to handle }', 'inspect'];
	const dry = (text: string) =>
		text.replaceAll('    standing: ', '    dry to: { handle: 4 h at 70 °F }\n    standing: ');

	test('tape comes off once the coat is dry to handle, and the parts are looked at', () => {
		const [face] = jobOf(dry(withStages(...stages))).faces;
		expect(face?.finishing?.prep).toEqual([
			{ step: 'unmask', grit: null, dry: 'handle' },
			{ step: 'inspect', grit: null },
		]);
	});

	test('… or so long after it', () => {
		const timed = [stages[0] ?? '', '{ unmask: 3 h }', 'inspect'];
		const long = [stages[0] ?? '', 'wait: 3 h', 'unmask', 'inspect'];
		same(timed, long);
	});

	test('a material that does not say when it is dry to handle is asked for it', () => {
		expect(complaintsOf(withStages(...stages))).toEqual([
			expect.stringMatching(
				/dry to handle, and material primer has no time for it: write "dry to: \{ handle/,
			),
		]);
		expect(complaintsOf(dry(withStages('{ unmask: dry to handle }', ...stages)))).toEqual([
			expect.stringMatching(/dry to handle, and there is no coat on it yet/),
		]);
		expect(complaintsOf(withStages(stages[0] ?? '', '{ unmask: soon }'))).toEqual([
			expect.stringMatching(/unmask: found "soon"; allowed: yes, dry to handle, or a time as in "16 h"$/),
		]);
	});
});
