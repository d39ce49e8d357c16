import { readFile } from 'node:fs/promises';
import type { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { usageError } from '../exit.js';
import { inPlainWords } from './trouble.js';

/** The names in a list: one a line, or separated by NUL where there is one, as `find -print0` writes them. */
function namesIn(list: string): string[] {
  const names = list.includes('\0') ? list.split('\0') : list.replace(/^\ufeff/, '').split(/\r?\n/);
  return names.filter((name) => name.trim() !== '');
}

/** What `@FILE` lists, or `@-` on standard input. */
export async function readList(argument: string, stdin: Readable): Promise<string[]> {
  const name = argument.slice(1);
  try {
    return namesIn(name === '-' ? await text(stdin) : await readFile(name, 'utf8'));
  } catch (error) {
    throw usageError(`the list ${name}: ${inPlainWords(error)}`);
  }
}
