import { expect, test } from 'vitest';
import { type Job, leavesOut } from '../../../src/job/job.ts';
import { parseJob } from '../../../src/job/load.ts';
import { type Chance, chanceOf } from '../../model/keys/chance.ts';
import { type Answerer, answered, chairs, inOrder, written } from './answered.ts';
import { jobs, shelf } from './workshop-jobs.ts';

/** Which side of a part lies up, stage after stage of a sheet that the questions made: told from its stages alone. */

/** What a painter who turns parts only where it is told would do to a face that lies down, or turn for nothing. */
function wrongTurns(job: Job): string[] {
	const says: string[] = [];
	const turned = new Map(job.faces.map(({ id, turned: its }) => [id, its !== undefined]));
	const sided = new Set(job.faces.flatMap(({ part, turned: its }) => (its ? [part] : [])));
	const [up, coated] = [new Map<string, boolean>(), new Set<string>()];
	for (const [nth, stage] of job.stages.entries()) {
		const faces = job.faces.filter(({ id, part }) => sided.has(part) && !leavesOut(stage, id));
		if (stage.kind === 'wait') continue;
		const isTurning = stage.kind === 'prep' && stage.step === 'turn over';
		for (const { id, part } of faces) {
			const other = turned.get(id) === true;
			// A bare part may be picked up anywhere: before its first coat no turning is told.
			if (isTurning && up.get(part) === other && faces.find(one => one.part === part)?.id === id)
				says.push(`${nth}: ${part} is turned, and lies so already`);
			if (!isTurning && coated.has(part) && up.get(part) !== other)
				says.push(`${nth}: ${stage.name} on ${id}, which lies down`);
			up.set(part, other);
		}
		if (stage.kind === 'coats') for (const { part } of faces) coated.add(part);
	}
	return says;
}

function jobOf(answer: Answerer): Job | null {
	const { outcome } = answered(shelf, answer, 60);
	if (!outcome || 'backTo' in outcome) return null;
	const loaded = parseJob(written(outcome).text, 'new.yaml', () => shelf);
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	return loaded.job;
}
const workOf = ({ stages, faces }: Job) =>
	stages.map(stage => {
		const its = faces.filter(({ id }) => !leavesOut(stage, id)).map(({ id }) => id.replace(/ \d+\//, '/'));
		return `${stage.name}: ${[...new Set(its)].join(', ')}`;
	});

test('eight chairs: on the second day the undersides are turned up, and done before edges and tops are', () => {
	const job = jobOf(inOrder(chairs));
	if (!job) throw new Error('no sheet was written');
	expect(wrongTurns(job)).toEqual([]);
	const days = workOf(job)
		.join('\n')
		.split(/overnight.*/);
	expect(days[1]?.trim().split('\n')).toEqual([
		'turn over: seat/underside',
		'sand: frame/tubes, seat/underside',
		'wipe: frame/tubes, seat/underside',
		'tack: frame/tubes, seat/underside',
		'spray moss green satin: frame/tubes, seat/underside',
	]);
	expect(days[2]?.trim().split('\n')[0]).toBe('turn over: seat/edges, seat/top');
});

test.each(Object.entries(jobs))('%s: nothing is done to a face that lies down', (_, answers) => {
	const job = jobOf(inOrder(answers));
	expect(job && wrongTurns(job)).toEqual([]);
});

/** A bowl whose inside is bare after the first day, and sanded on the second before its outside is coated again. */
const bowl = [
	...['Mixing bowl', 'bowl', 'bowl', '30 x 12 cm', 'on points', ''],
	...['grey epoxy', 'outside', 'full', 'large', 'moss green satin', 'all', 'full', '', '', 'yes', ''],
];

test('a bare side is turned up to be sanded where the coated one lies up, and turned down again', () => {
	const job = jobOf(inOrder([...bowl, 'as offered', '', 'WRITE']));
	if (!job) throw new Error('no sheet was written');
	expect(wrongTurns(job)).toEqual([]);
	const second = workOf(job)
		.join('\n')
		.split(/overnight.*\n/)[1];
	expect(second?.split('\n').slice(0, 6)).toEqual([
		'turn over: bowl/inside',
		'degrease: bowl/inside',
		'sand: bowl/inside',
		'wipe: bowl/inside',
		'turn over: bowl/outside',
		'degrease: bowl/outside',
	]);
});

const forms = [
	['panel', '40 x 38 x 3 cm'],
	['door both sides', '72 x 40 x 1.9 cm'],
	['box', '40 x 30 x 20 cm'],
	['bowl', '30 x 12 x 1 cm'],
] as const;

/** One or two parts of any shape, and one to three materials on any of their faces. */
function anyJob(chance: Chance): Answerer {
	const [parts, sprays] = [1 + Math.floor(chance.next() * 2), 1 + Math.floor(chance.next() * 3)];
	let [named, sprayed, form] = [0, 0, chance.pick(forms)];
	const materials = ['grey epoxy', 'moss green satin', 'slate satin'];
	const some = (choices: readonly string[]) =>
		choices
			.slice(1)
			.filter(() => chance.next() < 0.4)
			.join(', ');
	return ({ question, choices = [], may }) => {
		switch (question) {
			case 'name':
				return 'Any job';
			case 'part':
				form = chance.pick(forms);
				return named < parts ? (['2 x seat', 'lid'][named++] ?? '') : '';
			case 'shape':
				return form[0];
			case 'sizes':
				return form[1];
			case 'held':
				return chance.next() < 0.85 ? 'on points' : 'hanging';
			case 'material':
				return sprayed++ < sprays || !may ? chance.pick(materials) : '';
			case 'faces':
				return chance.next() < 0.4 ? 'all' : some(choices) || 'all';
			case 'coats':
				return 'full';
			case 'left over':
				return chance.next() < 0.7 ? 'yes' : 'no';
			default:
				return '';
		}
	};
}

test('of any job that is asked for nothing is done to a face that lies down, and no part is turned for nothing', () => {
	const asked = Array.from({ length: 80 }, (_, seed) => jobOf(anyJob(chanceOf(seed + 5))));
	const made = asked.filter(job => job !== null);
	expect(made.length).toBeGreaterThan(30);
	expect(made.flatMap((job, nth) => wrongTurns(job).map(says => `${nth}, ${job.name}: ${says}`))).toEqual([]);
});
