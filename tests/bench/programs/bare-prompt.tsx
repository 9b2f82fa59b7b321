import { render, Text, useInput } from 'ink';

/** The least that Ink can ask with: one line, and a key that leaves. */
function Prompt() {
	useInput(() => process.exit(0));
	return <Text>Job sheet: choose one.</Text>;
}

render(<Prompt />);
