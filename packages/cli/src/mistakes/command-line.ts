import yargs, { type Argv } from 'yargs';
import { COMMANDS, commandList, isCommand } from '../commands/commands.js';
import { didYouMean, nearest, orList } from './nearest.js';
import { optionsOf, usageOf } from './parser.js';

/** `"mrak" is not a command; ...; did you mean mark?` */
export function noCommand(word: string): string {
  const near = didYouMean(
    word,
    COMMANDS.map(({ name }) => name),
  );
  return `"${word}" is not a command; use ${commandList()}${near}`;
}

/** Says in our words what yargs finds wrong with a command line: what is typed, what may be, and what is near. */
export async function plainly(message: string, argv: readonly string[]): Promise<string> {
  const unknown = /^Unknown arguments?: (.+)$/.exec(message)?.[1];
  if (unknown !== undefined) return unknownOptions(unknown.split(', '), argv);
  const choice = /Argument: (.+), Given: (.*), Choices: (.+)$/m.exec(message);
  if (choice !== null) {
    const [given, ...choices] = [choice[2]!, ...choice[3]!.split(', ')].map((one) => one.replaceAll('"', ''));
    const name = await typedAs(choice[1]!, argv);
    const what = given === '' ? `${name} is empty` : `${name} ${given} is not allowed`;
    return `${what}; give ${orList(choices)}${didYouMean(given!, choices)}`;
  }
  const bare = /^Not enough arguments following: (.+)$/.exec(message)?.[1];
  if (bare !== undefined) return withoutValue(bare, argv);
  const both = /^Arguments (.+) and (.+) are mutually exclusive$/.exec(message);
  if (both === null) return message;
  const [one, other] = [await typedAs(both[1]!, argv), await typedAs(both[2]!, argv)];
  return `${one} and ${other} exclude each other; give one of them`;
}

/** `--output`, or `-o` where that was typed. */
async function typedAs(name: string, argv: readonly string[]): Promise<string> {
  if (name.length === 1) return `-${name}`;
  const isLong = argv.some((word) => word === `--${name}` || word.startsWith(`--${name}=`));
  const command = argv.find(isCommand);
  const { [name]: letters = [] } = command === undefined ? {} : optionsOf(await parserOf(command)).alias;
  const letter = letters.find((one) => argv.some((word) => new RegExp(`^-[a-z]*${one}`).test(word)));
  return letter !== undefined && !isLong ? `-${letter}` : `--${name}`;
}

async function unknownOptions(names: readonly string[], argv: readonly string[]): Promise<string> {
  const command = argv.find(isCommand);
  const typed = names.map((name) => (name.length === 1 ? `-${name}` : `--${name}`)).join(' and ');
  const are = names.length === 1 ? 'is not an option' : 'are not options';
  if (command === undefined) {
    const near = didYouMean(names[0]!, ['help', 'version']);
    return `${typed} ${are} without a command; begin with ${commandList()}${near.replace('mean ', 'mean --')}`;
  }
  const known = Object.keys(optionsOf(await parserOf(command)).key).filter((name) => name.length > 1);
  const meant = names.flatMap((name) => nearest(name, known) ?? []).map((name) => `--${name}`);
  const near = meant.length === 0 ? '' : `; did you mean ${meant.join(' and ')}?`;
  return `${typed} ${are} of handline ${command}${near}`;
}

/** What the help says of an option that lacks its value. */
async function withoutValue(name: string, argv: readonly string[]): Promise<string> {
  const command = argv.find(isCommand);
  const typed = `${await typedAs(name, argv)} needs a value after it`;
  if (command === undefined) return typed;
  const parser = await parserOf(command);
  const long = Object.entries(optionsOf(parser).alias).find(([, short]) => short.includes(name))?.[0] ?? name;
  const { [long]: told } = usageOf(parser).getDescriptions();
  return `${typed} (${told})`;
}

async function parserOf(command: string): Promise<Argv> {
  const { build } = await COMMANDS.find(({ name }) => name === command)!.load();
  return build(yargs());
}
