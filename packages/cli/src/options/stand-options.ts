import type { Argv } from 'yargs';
import { addSomeMarkOptions } from './mark-options.js';
import { addPageOutput } from './page-output.js';

/** Choices of the page that it can begin with. */
const BEGINS_WITH = ['for', 'config', 'span', 'layers', 'density', 'language'];

export function addStandOptions(parser: Argv): Argv {
  return addPageOutput(addSomeMarkOptions(parser, BEGINS_WITH));
}
