import { readFile, writeFile } from 'node:fs/promises';
import { withTable } from './table.ts';

const file = 'DEVELOPERS.md';
await writeFile(file, withTable(await readFile(file, 'utf8')));
