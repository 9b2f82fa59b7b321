import { expect, test } from 'vitest';
import { altered, complaintsOf } from './altered.ts';

/** Keys of paint, film and turning over, each with something that cannot be: one complaint, with what may stand there. */

const inGun = (line: string) => altered('  distance: 6 in', `  ${line}\n  distance: 6 in`);
const onTop = (line: string) => altered('units: us', `${line}\nunits: us`);
const onBox = (line: string) =>
	altered('        size: 24 in x 20 in', `        size: 24 in x 20 in\n        ${line}`);
const onPrimer = (line: string) => altered('    grit: 400', `    ${line}\n    grit: 400`);
const vapour = 'vapour: 26.4 ft3/gal';
const onRail = (line: string) => altered('        size: 60 in x 5 in', `        ${line}`);

test.each([
	['speeds that fall', altered('6 to 24 in/s', '24 to 6 in/s'), /speeds: .*the second must be more/],
	['speeds that are lengths', altered('6 to 24 in/s', '6 to 24 in'), /speeds: .*a speed is wanted/],
	['a lead below nothing', inGun('lead: -1 in'), /lead: .*cannot be negative/],
	['a lead without its unit', inGun('lead: 3'), /lead: .*a unit is missing/],
	['a turn below nothing', inGun('turn: -1 s'), /turn: .*cannot be negative/],
	['a turn in words', inGun('turn: fast'), /turn: .*a time begins with a number/],
	['a trigger of another word', inGun('trigger: hold'), /trigger: .*allowed: released, held/],
	['a first line of another word', inGun('first line: top'), /first line: .*allowed: on the edge, half in/],
	['losses as one amount', inGun('losses: 20 ml'), /losses: .*keys with values are wanted/],
	['a loss below nothing', inGun('losses: { gun: -5 ml }'), /losses, gun: .*cannot be negative/],
	[
		'a loss of another name',
		inGun('losses: { cup: 5 ml }'),
		/losses, key: .*allowed: strainer, pot, gun, burst/,
	],
	['a burst as an amount', inGun('losses: { burst: 1 ml }'), /losses, burst: .*a time is wanted/],
	['a risk of nothing', onTop('risk: 0%'), /risk: .*allowed: 0\.1% to 20%/],
	['a risk of a third', onTop('risk: 33%'), /risk: .*allowed: 0\.1% to 20%/],
	['a strip beside a size', onBox('strip: 25 mm x 400 mm'), /strip: its size says it already/],
	['a strip without an area', onRail('strip: 25 mm x 400 mm'), /strip: needs the area/],
	['a strip of one length', onRail('area: 2 ft2\n        strip: 25 mm'), /strip: .*a size is wanted/],
	['corners of another word', onBox('corners: last'), /corners: .*allowed: first/],
	[
		'a flow that may be none',
		altered('flow: 7 fl oz/min', 'flow: 7 fl oz/min ± 120%'),
		/flow: .*allowed: .*%/,
	],
	['a transfer off by more than half', altered('65% ± 5%', '65% ± 60%'), /transfer: .*allowed: ± up to 50%/],
	[
		'a film that falls',
		altered('film: 1.0 mil }', 'film: 1.2 to 0.8 mil }'),
		/film: .*the second must be more/,
	],
	[
		'a solvent without its vapour',
		onPrimer('solvent: { share: 60%, lel: 1% }'),
		/solvent, vapour is missing/,
	],
	[
		'a vapour of no liquid',
		onPrimer('solvent: { share: 60%, vapour: 26.4 ft3, lel: 1% }'),
		/solvent, vapour: .*unit|solvent, vapour: .*wanted/,
	],
	[
		'an exposure limit that is a speed',
		onPrimer(`solvent: { share: 60%, ${vapour}, lel: 1%, limit: 100 mm/s }`),
		/solvent, limit: .*a share is wanted/,
	],
	['a time factor out of reach', onPrimer('time factor: 9'), /time factor: found "9"; allowed: .*1\.1.*4/],
	['a time factor in words', onPrimer('time factor: twice'), /time factor: .*allowed: a number/],
	['dry to handle, some time', onPrimer('dry to: { handle: soon }'), /dry to, handle: /],
	['turned over, perhaps', onBox('turned over: maybe'), /turned over: .*allowed: yes, no/],
	['a step with a hyphen', altered('  - wait: 2 d', '  - turn-over\n  - wait: 2 d'), /nearest: turn over/],
])('%s', (_, text, says) => {
	const said = complaintsOf(text);
	expect(said).toHaveLength(1);
	expect(said[0]).toMatch(says);
	expect(said[0]).toMatch(/^\d+:\d+ /);
});
