/** Days that a cure has changed, each by its name and with a test of its own. */
export const cured: ReadonlySet<number> = new Set<number>([]);
