import { inert } from '../job/inert.ts';
import type { Environment } from './on-path.ts';

/** Terminals that show a message of their own for OSC 9, by what they call themselves. From memory. */
const nine = /^(iTerm\.app|WezTerm|ghostty)$/;
/** … and for OSC 777, by the kind of terminal that they say they are. */
const sevens = /^(rxvt-unicode|foot)/;

const bel = '\u0007';

/**
 * The bytes that have the terminal show a message outside its own window; null where it does not say that it can,
 * or something between here and it would keep them.
 */
export function noticeBytes(text: string, env: Environment): string | null {
	const term = env.TERM ?? '';
	if (env.TMUX !== undefined || env.STY !== undefined || /^(screen|tmux|dumb)/.test(term)) return null;
	const words = inert(text).replaceAll(';', ',');
	if (nine.test(env.TERM_PROGRAM ?? '') || term === 'xterm-kitty') return `\u001b]9;${words}${bel}`;
	if (sevens.test(term)) return `\u001b]777;notify;fanwise;${words}${bel}`;
	return null;
}
