import { expect, test } from 'vitest';
import { planText } from '../../src/cli/plan-text.ts';
import { planJob } from '../../src/plan/job-plan.ts';
import { sketch } from './jobs.ts';

/** A transfer that nobody measured makes each batch larger: weighing the cup over one face settles most of that. */

const start = Date.parse('2027-03-02T08:00:00Z');
function planned(assumed: string[], cups: number): string {
	const job = sketch({ faces: [{ part: 'lid', name: 'top', horns: ['level'] }] });
	const guessed = { ...job, gun: { ...job.gun, ...(assumed.length > 0 && { assumed }) } };
	const use = cups > 0 ? { factor: 1.1, unsure: 0.05, cups } : null;
	const learned = { topcoat: { time: null, use, timed: 0 } };
	return planText(
		{ ...planJob({ job: guessed, start }), learned },
		{ start, zone: 'UTC', units: 'metric', width: 80 },
	).join(' ');
}
const weigh = 'Transfer usual, not measured: batches are larger for it. First weigh the cup over one face';

test.each([
	['the sheet gives no transfer, and no cup was measured', ['transfer'], 0, true],
	['a cup was measured', ['transfer'], 1, false],
	['the sheet gives it', ['feather'], 0, false],
] as const)('said where %s: %s, %d cups', (_, assumed, cups, isSaid) => {
	expect(planned([...assumed], cups).includes(weigh)).toBe(isSaid);
});
