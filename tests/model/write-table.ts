import { writeFile } from 'node:fs/promises';
import { readmeOfCharts } from './table.ts';

await writeFile('machines/README.md', readmeOfCharts());
