import type { Command } from './command.ts';

/** Every command in a line, each read only when it is run. */
export const commands: { name: string; summary: string; load(): Promise<Command> }[] = [
	{
		name: 'spray',
		summary: 'a day on the real clock; carries on the open day of that job',
		load: async () => (await import('./spray.ts')).sprayCommand,
	},
	{
		name: 'rehearse',
		summary: 'the same screens and rules on a clock that can be moved',
		load: async () => (await import('./rehearse.ts')).rehearseCommand,
	},
	{
		name: 'demo',
		summary: 'the example day played by a scripted painter, as text',
		load: async () => (await import('./demo.ts')).demoCommand,
	},
	{
		name: 'check',
		summary: 'validates a job sheet and every list it names',
		load: async () => (await import('./check.ts')).checkCommand,
	},
	{
		name: 'example',
		summary: 'writes the example job sheet, to begin one of your own with',
		load: async () => (await import('./example.ts')).exampleCommand,
	},
	{
		name: 'new',
		summary: 'asks for a job line by line, shows its plan, and writes its sheet',
		load: async () => (await import('./new.ts')).newCommand,
	},
	{
		name: 'again',
		summary: 'the same job in other numbers or colours: asks for those alone, and writes its sheet',
		load: async () => (await import('./again.ts')).againCommand,
	},
	{
		name: 'shelf',
		summary: 'the materials, guns and shapes that sheets only name: listed, added, checked',
		load: async () => (await import('./shelf.ts')).shelfCommand,
	},
	{
		name: 'plan',
		summary: 'order, cap turns, batches, amounts, times',
		load: async () => (await import('./plan.ts')).planCommand,
	},
	{
		name: 'now',
		summary: 'what can be done to each face at this moment, and until when',
		load: async () => (await import('./now.ts')).nowCommand,
	},
	{
		name: 'log',
		summary: 'the day as lines, one a record; or what can be saved of a damaged one',
		load: async () => (await import('./log.ts')).logCommand,
	},
	{
		name: 'summary',
		summary: 'a day, or one coat of it, in spoken sentences',
		load: async () => (await import('./summary.ts')).summaryCommand,
	},
	{
		name: 'inspect',
		summary: 'walk the faces of a closed day: faults, film readings, photos, verdicts',
		load: async () => (await import('./inspect.ts')).inspectCommand,
	},
	{
		name: 'trace',
		summary: 'where a fault began, what else got it, what to look at first',
		load: async () => (await import('./trace.ts')).traceCommand,
	},
	{
		name: 'report',
		summary: 'a day as a page to print, a table, a calendar, or data: by the ending of the file',
		load: async () => (await import('./report.ts')).reportCommand,
	},
	{
		name: 'board',
		summary: 'a page of the open days to read from across the room, and a call where somebody should look in',
		load: async () => (await import('./board.ts')).boardCommand,
	},
	{
		name: 'cards',
		summary: 'pattern cards to print: crosses at life size, their letters read back in the gun check',
		load: async () => (await import('./cards.ts')).cardsCommand,
	},
	{
		name: 'work',
		summary: 'the arithmetic alone: mix, film, air, cups, pot life, fan, gun, ventilation',
		load: async () => (await import('./work.ts')).workCommand,
	},
	{
		name: 'settings',
		summary: 'the settings, or one of them changed',
		load: async () => (await import('./settings.ts')).settingsCommand,
	},
	{
		name: 'keys',
		summary: 'teach the keys of any keyboard, pad or pedal, corner by corner',
		load: async () => (await import('./keys.ts')).keysCommand,
	},
	{
		name: 'completion',
		summary: 'has a shell complete commands and options: bash, zsh or fish',
		load: async () => (await import('./completion.ts')).completionCommand(everyCommand),
	},
];

/** Every command with its table, all of them read. */
export const everyCommand = (): Promise<Command[]> => Promise.all(commands.map(({ load }) => load()));
