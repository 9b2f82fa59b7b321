import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take longest: a whole day at a real terminal keeps the time of a person's hands, mutants are many. */
const long = /tests\/(?:terminal\/real-|model\/mutants)/;

/** Begins with the longest files, so that the others are done beside them. */
export class LongestFirst extends BaseSequencer {
	override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
		const sorted = await super.sort(files);
		const isLong = ({ moduleId }: TestSpecification) => long.test(moduleId);
		return [...sorted.filter(isLong), ...sorted.filter(file => !isLong(file))];
	}
}
