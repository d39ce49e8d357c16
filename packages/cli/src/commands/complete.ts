import { drill, HandlineError } from '@handline/core';
import yargs, { type Argv } from 'yargs';
import { optionsOf } from '../mistakes/parser.js';
import { nearestConfig, objectAt, readSettings } from '../options/config-file.js';
import { LAYERS } from '../options/values.js';
import { COMMANDS } from './commands.js';
import { SHELLS } from './completion.js';

const KEYS = ['C', 'G', 'D', 'A', 'E', 'B', 'F#', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'all'];
const SPANS = ['small', 'medium', 'large', '7th', '8th', '9th', '10th', '11th', '12th', 'octave'];

/** Values that stand in no list. */
const ALONE = ['all', 'none'];

/** Words of options whose values yargs does not know. */
const VALUES: Readonly<Record<string, () => readonly string[] | Promise<readonly string[]>>> = {
  layers: () => [...LAYERS, ...ALONE],
  span: () => SPANS,
  staff: () => ['right=1,left=2', 'right', 'left'],
  for: students,
  keys: () => KEYS,
  patterns: () => allowed(() => drill({ patterns: ['?' as never] })),
  kinds: () => allowed(() => drill({ kinds: ['?' as never] })),
  chords: () => allowed(() => drill({ patterns: ['arpeggios'], chords: ['?' as never] })),
  rhythm: () => allowed(() => drill({ rhythms: [['?']] })),
};

/**
 * What may come next, where that is a value or an option of a command; nothing where it is a file; undefined where yargs
 * knows it.
 *
 * @param words behind `handline`, the last one still being typed
 */
export async function completedValues(words: readonly string[]): Promise<readonly string[] | undefined> {
  const [command, ...others] = words;
  const current = others.pop();
  if (command === undefined || current === undefined) return undefined;
  if (command === 'completion') return others.length === 0 ? SHELLS : [];
  const own = COMMANDS.find(({ name }) => name === command);
  if (own === undefined) return undefined;
  // A shell may hand over `--layers=de` as three words or as one.
  const glued = /^--([a-z-]+)=(.*)$/.exec(current);
  if (others.at(-1) === '=') others.pop();
  const option = glued?.[1] ?? others.at(-1)?.replace(/^--?/, '');
  const isOption = glued !== null || others.at(-1)?.startsWith('-') === true;
  const parser = (await own.load()).build(yargs());
  const { key, boolean, choices, alias } = optionsOf(parser);
  const name = Object.keys(alias).find((long) => alias[long]!.includes(option!)) ?? option!;
  if (isOption && Object.hasOwn(key, name) && !boolean.includes(name)) {
    const before = glued === null ? '' : `--${option}=`;
    const typed = glued?.[2] ?? (current === '=' ? '' : current);
    // A list goes on behind its last comma.
    const list = typed.slice(0, typed.lastIndexOf(',') + 1);
    const taken = list === '' ? [] : [...ALONE, ...list.split(',')];
    const values = choices[name] ?? (await VALUES[name]?.()) ?? [];
    return values.filter((value) => !taken.includes(value)).map((value) => `${before}${list}${value}`);
  }
  return current.startsWith('-') ? optionsLike(current, parser, others) : [];
}

/** The options that are not typed yet; single letters behind one hyphen alone, where yargs has them behind two. */
function optionsLike(current: string, parser: Argv, typed: readonly string[]): string[] {
  const { key, hiddenOptions } = optionsOf(parser);
  return Object.keys(key)
    .filter((name) => !hiddenOptions.includes(name))
    .map((name) => (name.length === 1 ? `-${name}` : `--${name}`))
    .filter((word) => word.startsWith(current) && !typed.includes(word));
}

/** What core allows, as its refusal lists it. */
function allowed(act: () => unknown): readonly string[] {
  try {
    act();
  } catch (error) {
    if (error instanceof HandlineError) return error.option?.allowed ?? [];
    throw error;
  }
  return [];
}

async function students(): Promise<readonly string[]> {
  const file = await nearestConfig();
  if (file === undefined) return [];
  const { for: entries = {} } = await readSettings(file);
  return Object.keys(objectAt(entries, file));
}
