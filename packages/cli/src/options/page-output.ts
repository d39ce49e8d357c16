import type { Argv } from 'yargs';
import { valued } from './arguments.js';

const WHERE = 'Where the page goes:';

/** For commands whose result is one page. */
export function addPageOutput(parser: Argv): Argv {
  return parser
    .option('output', { alias: 'o', ...valued(WHERE, 'Write the page to this file; - is standard output') })
    .option('force', { group: WHERE, type: 'boolean', describe: 'Overwrite an existing page' })
    .option('quiet', {
      alias: 'q',
      group: 'What is reported:',
      type: 'boolean',
      describe: 'Print errors only',
    });
}
