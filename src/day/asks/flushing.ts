/**
 * What a flush asks for, whoever asks for it. Source: 40 CFR 63.11173(e)(4), from memory: no mist of solvent outside the
 * container that collects it.
 */
export const flushLines: readonly string[] = [
	'Air off, line bled first.',
	'Solvent through: no air, into a closed can.',
];
