import type { Command } from './command.ts';
import { invent } from './commands/invent.ts';

/** One line adds a command. */
const COMMANDS: Readonly<Record<string, Command>> = { invent };

const [name, ...args] = process.argv.slice(2);
const command = name === undefined ? undefined : COMMANDS[name];
if (command === undefined) {
  const asked = name === undefined ? '' : `There is no command "${name}". `;
  const usages = Object.values(COMMANDS).map(({ usage }) => `  raybend ${usage}`);
  console.error(`${asked}Commands:\n${usages.join('\n')}`);
  process.exitCode = 2;
} else {
  process.exitCode = await command.run(args);
}
