import yargs, { type Argv } from 'yargs';
import { COMMANDS } from './commands/commands.js';

/** Mistyped letters up to which a name is taken for another one, if at least half of it is right. */
const MOST_MISTYPED = 2;

/** `; did you mean --out-dir?` where the message tells of an option, command or value that is nearly one of ours. */
export async function suggestion(message: string, command: string | undefined): Promise<string> {
  const option = /^Unknown argument: (.+)$/.exec(message)?.[1];
  if (option !== undefined) {
    const meant = await nearest(option, await optionsOf(command));
    return meant === undefined ? '' : `; did you mean --${meant}?`;
  }
  const value = /Given: "(.+)", Choices: (.+)$/.exec(message);
  if (value !== null) {
    const meant = await nearest(value[1]!, value[2]!.replaceAll('"', '').split(', '));
    return meant === undefined ? '' : `; did you mean ${meant}?`;
  }
  const student = /^--for (.+?): .+ knows (.+)$/.exec(message);
  if (student !== null) {
    const meant = await nearest(student[1]!, student[2]!.split(', '));
    return meant === undefined ? '' : `; did you mean ${meant}?`;
  }
  const word = /^"(.+)" is not a command/.exec(message)?.[1];
  if (word === undefined) return '';
  const names = COMMANDS.map(({ name }) => name);
  const meant = await nearest(word, names);
  return meant === undefined ? '' : `; did you mean ${meant}?`;
}

async function optionsOf(command: string | undefined): Promise<string[]> {
  const own = COMMANDS.find(({ name }) => name === command);
  if (own === undefined) return [];
  const built = (await own.load()).build(yargs()) as Argv & { getOptions(): { key: object } };
  return Object.keys(built.getOptions().key).filter((name) => name.length > 1);
}

async function nearest(name: string, known: readonly string[]): Promise<string | undefined> {
  const { closestMatch } = await import('leven');
  const small = known.map((one) => one.toLowerCase());
  const maxDistance = Math.min(MOST_MISTYPED, Math.floor(name.length / 2));
  const meant = closestMatch(name.toLowerCase(), small, { maxDistance });
  return meant === undefined ? undefined : known[small.indexOf(meant)];
}
