import type { DrillOptions } from '@handline/core';
import { usageError } from '../exit.js';
import { parsedJson } from '../files/json.js';
import { type Arguments, defined, parsed, text } from './arguments.js';
import { parseMeasures } from './values.js';

type Motive = NonNullable<DrillOptions['motive']>;

/** The file from which a motive or a passage is taken; undefined where there is none. */
export function sourceFile(args: Arguments): string | undefined {
  const [motive, from] = [text(args, 'motive'), text(args, 'from')];
  if (motive !== undefined && from !== undefined) {
    throw usageError('--motive and --from exclude each other; make two sheets');
  }
  const file = motive ?? from;
  if (file === undefined && text(args, 'measures') !== undefined) {
    throw usageError('--measures speaks of a score; give one with --from or --motive');
  }
  return file;
}

/** What the file holds, as `drill` takes it: `.json` holds degrees, anything else is a score. */
export function sourceOf(
  args: Arguments,
  file: string,
  score: Uint8Array,
): Pick<DrillOptions, 'motive' | 'study'> {
  const measures = parsed(args, 'measures', parseMeasures);
  const passage = { score, file, ...defined({ measures }) };
  if (text(args, 'from') !== undefined) return { study: passage };
  if (!/\.json$/i.test(file)) return { motive: passage };
  if (measures !== undefined)
    throw usageError(`--measures speaks of a score, and ${file} holds degrees; leave it out`);
  return { motive: degreesIn(file, score) };
}

function degreesIn(file: string, bytes: Uint8Array): Motive {
  const advice = '; give a file such as {"degrees": [1, 3, 2, 4]}';
  const value = parsedJson(new TextDecoder().decode(bytes), `--motive ${file}`, advice);
  if (typeof value !== 'object' || value === null || !('degrees' in value)) {
    throw usageError(`--motive ${file} holds no degrees${advice}`);
  }
  // Core checks what else it holds.
  return value as Motive;
}
