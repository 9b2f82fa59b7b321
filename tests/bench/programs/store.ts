import { jobsIn } from '../../../src/cli/day-files.ts';
import { acrossDays } from '../../../src/trace/across.ts';
import { loadFaults } from '../../../src/trace/load-faults.ts';

/** The trace over every day of a folder, named in the line; says its highest memory. */
const silent = { write: (text: string) => process.stderr.write(text) };
const jobs = jobsIn(process.argv[2] ?? '', { stdout: silent, stderr: silent, env: {} });
const { days } = acrossDays(jobs, loadFaults());
process.stdout.write(JSON.stringify({ days, most_MB: process.resourceUsage().maxRSS / 1024 }));
