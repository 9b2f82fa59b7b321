import { dataFolder } from '../day/file/folder.ts';
import { canDraw } from '../screen/terminal.ts';
import type { Args, Command, Io } from './command.ts';

const geometries = ['us', 'german', 'french'] as const;

async function run({ options }: Args, io: Io): Promise<number> {
	const refuse = (message: string): number => {
		io.stderr.write(`fanwise keys: ${message}\n`);
		return 2;
	};
	const geometry = geometries.find(name => name === (options.keyboard ?? 'us'));
	if (!geometry) return refuse(`--keyboard is one of ${geometries.join(', ')}`);
	if (!canDraw(process.stdin, process.stdout, io.env))
		return refuse('there is no terminal here: keys are taught at one');
	const { processPorts } = await import('../screen/show-day.ts');
	const { glyphStyle } = await import('../screen/window.ts');
	const { teachKeys } = await import('../screen/teach-keys.ts');
	const learned = await teachKeys(processPorts(), geometry, glyphStyle(io.env));
	if (!learned) {
		io.stdout.write('Nothing was changed.\n');
		return 1;
	}
	const { changeSettings } = await import('../settings/kept.ts');
	const changed = changeSettings(dataFolder(), { learned, layout: 'learned' });
	if (!changed.ok) return refuse(changed.message);
	io.stdout.write('The keys are learned. fanwise settings layout us goes back to the built-in ones.\n');
	return 0;
}

export const keysCommand: Command = {
	name: 'keys',
	summary: 'teach the keys of any keyboard, pad or pedal, corner by corner',
	usage: ['keys [--keyboard us|german|french]'],
	words: 0,
	options: { keyboard: { type: 'string', value: 'NAME', says: 'whose key places tell which keys touch' } },
	examples: ['keys', 'keys --keyboard german'],
	run,
};
