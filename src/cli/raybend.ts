import { type Command, complain, EXIT } from './command.ts';
import { agree } from './commands/agree.ts';
import { film } from './commands/film.ts';
import { invent } from './commands/invent.ts';
import { read } from './commands/read.ts';
import { traceFilms } from './commands/trace.ts';

/** One line adds a command. */
const COMMANDS: Readonly<Record<string, Command>> = {
  read,
  agree,
  film,
  invent,
  trace: traceFilms,
};

const help = (): string =>
  [
    'Commands:',
    ...Object.values(COMMANDS).map(({ usage, about }) => `  raybend ${usage}\n      ${about}`),
    '  raybend help\n      This list.',
    `Ends with ${EXIT.done} when done, ${EXIT.refused} when a file was refused, ${EXIT.usage} when called wrongly, ${EXIT.unreadable} when a file could not be read.`,
    'For education and a second look only; not a medical device.',
  ].join('\n');

const [name, ...args] = process.argv.slice(2);
const command = name !== undefined && Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
if (command !== undefined) {
  process.exitCode = await command.run(args);
} else if (name === 'help' || name === undefined) {
  console.log(help());
} else {
  complain('unknown-command', `There is no command “${name}”.\n${help()}`);
  process.exitCode = EXIT.usage;
}
