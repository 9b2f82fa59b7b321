import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that mostly wait: a whole day at a real terminal keeps the time of a person's hands. */
const waits = /tests\/terminal\/real-/;

/** Begins with the files that wait longest, so that the others are done beside them. */
export class WaitsFirst extends BaseSequencer {
	override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
		const sorted = await super.sort(files);
		const isLong = ({ moduleId }: TestSpecification) => waits.test(moduleId);
		return [...sorted.filter(isLong), ...sorted.filter(file => !isLong(file))];
	}
}
