import { constants } from 'node:os';

/** Signals that end a program with its terminal given back, those of them that the system has. */
export const endings: readonly NodeJS.Signals[] = (
	['SIGHUP', 'SIGINT', 'SIGQUIT', 'SIGTERM', 'SIGBREAK'] as const
).filter(signal => signal in constants.signals);

/** What a program that a signal has ended says to its shell. */
export const statusOf = (signal: NodeJS.Signals): number => 128 + constants.signals[signal];
