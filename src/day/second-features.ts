import type { ReadingFeature } from './records.ts';

/** What a full gun check reads back beside pressure and pattern, one of them at a time. */
export const secondFeatures: readonly ReadingFeature[] = ['horns', 'pattern-height', 'flooded'];

export const isSecond = (item: string): boolean => secondFeatures.some(feature => feature === item);

/** The one of them that a check asks for; undefined: none. */
export const secondOf = (items: readonly string[]): ReadingFeature | undefined =>
	secondFeatures.find(feature => items.includes(feature));
