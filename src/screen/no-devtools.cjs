/** Stands in the bundle for a debugging aid of Ink's that is neither installed nor wanted. */
