import { isScalar } from 'yaml';
import type * as z from 'zod/mini';
import { type Entry, map, offsetOf, type Reader, type Shape, value, written } from './fields.ts';
import { some } from './values.ts';

/** Readers that the keys of a sheet share. */

/** A map by its keys, or all of it in a line. */
export const orLine =
	<S extends Shape, T>(
		shape: S,
		line: z.ZodMiniType<T, string>,
		of: (read: T) => Entry<S>['values'],
	): Reader<Entry<S>> =>
	(source, node, what, at) => {
		if (!isScalar(node)) return map(shape)(source, node, what, at);
		const read = value(line)(source, node, what, at);
		return read === undefined ? undefined : written(of(read), offsetOf(node, at), what);
	};

export const some_ = (kind: Parameters<typeof some>[0]) => value(some(kind));
