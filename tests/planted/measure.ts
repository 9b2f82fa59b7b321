import { loadFaults } from '../../src/trace/load-faults.ts';
import { trace } from '../../src/trace/trace.ts';
import { standardLists } from '../model/by-chance/sheets.ts';
import { codes } from './causes.ts';
import { ceilingOf } from './ceiling.ts';
import { type PlantedDay, plantedDay } from './day.ts';
import { effectsFor } from './effects.ts';
import { type Answer, type Scored, scored, tableOf } from './score.ts';

/**
 * Asks the trace about every planted day, by what `trace --json` prints, and says how often it is right:
 * `node src/package/run.js tests/planted/measure.ts FROM TO [faa|tm] [each]`
 */

const data = loadFaults([]);

/** What the trace answers to the first thing that the inspecting painter asks. */
function traced({ records, question }: PlantedDay): Answer {
	const fault = question.kind in data.faults ? question.kind : 'other';
	const { candidates, word, exposed, inspect } = trace(
		{ days: [records], fault, face: question.face, coat: question.coat },
		data,
	);
	return { codes: candidates.map(({ code }) => code), told: word === 'told', exposed, inspect };
}

const [from = 0, to = 200] = process.argv.slice(2, 4).map(Number);
const by = process.argv[4] === 'tm' ? 'tm' : 'faa';
const each = process.argv.includes('each');
const effects = effectsFor(by);
const lists = await standardLists();
const known: readonly string[] = Object.keys(data.causes);

const asked: Scored[] = [];
const best: Scored[] = [];
for (let seed = from; seed < to; seed++) {
	const day = plantedDay(seed, lists, effects);
	const answer = traced(day);
	const ceiling = ceilingOf(day, effects);
	const both = { asked: scored(day, answer), best: scored(day, ceiling) };
	asked.push(both.asked);
	best.push(both.best);
	if (each) {
		const truth = day.truth.map(({ cause, saidBy }) => ({ ...cause, saidBy }));
		const answers = { trace: answer.codes, told: answer.told, ceiling: ceiling.codes.slice(0, 4) };
		process.stdout.write(`${JSON.stringify({ seed, truth, question: day.question, ...answers, ...both })}\n`);
	}
}
const missing = codes.filter(code => !known.includes(code));
process.stdout.write(
	`Seeds ${from} to ${to - 1}, effects by ${by}. Causes that the fault table lacks: ${missing.join(', ') || 'none'}.\n\n`,
);
process.stdout.write(`${tableOf(asked, best, missing)}\n`);
