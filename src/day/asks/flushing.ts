/**
 * What a flush asks for, whoever asks for it. Sources: 40 CFR 63.11173(e), paragraph from memory: no mist of solvent outside
 * the container that collects it; gear and extract as for mixing, 29 CFR 1910.107(g)(5) in the wording of WAC
 * 296-24-37013(5); chlorinated solvent bursts aluminium, from memory.
 */
export const flushLines: readonly string[] = [
	'Gear, extractor on. Air off, line bled.',
	'Solvent: no air, into a closed can. Nothing chlorinated.',
];
