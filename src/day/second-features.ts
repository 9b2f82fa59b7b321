import { type SecondFeature, secondFeatures } from '../plan/second-feature.ts';

export const isSecond = (item: string): boolean => secondFeatures.some(feature => feature === item);

/** The one second feature that a check asks for; undefined: none. */
export const secondOf = (items: readonly string[]): SecondFeature | undefined =>
	secondFeatures.find(feature => items.includes(feature));
