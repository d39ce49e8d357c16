import { statSync } from 'node:fs';
import { extname } from 'node:path';
import { CliError, Exit, usageError } from '../exit.js';

const PLAIN = ['.musicxml', '.xml'];
const COMPRESSED = '.mxl';
const PAGES = ['.html', '.htm'];

/** Refuses a result's name that does not say that it is MusicXML, such as `waltz.pdf` or `waltz`. */
export function refuseName(output: string): void {
  refuseUnlike(
    output,
    'output',
    [...PLAIN, COMPRESSED],
    'the result is MusicXML; name it .musicxml or, compressed, .mxl',
  );
}

/**
 * Refuses a page's name that does not say that it is HTML.
 *
 * @param option that gave the name
 */
export function refusePageName(output: string, option = 'output'): void {
  refuseUnlike(output, option, PAGES, 'the result is a page of HTML; name it .html');
}

function refuseUnlike(output: string, option: string, kinds: readonly string[], advice: string): void {
  if (output === '-' || kinds.includes(extname(output).toLowerCase())) return;
  // Folders, devices and pipes are refused where it is seen what can be written.
  const found = statSync(output, { throwIfNoEntry: false });
  if (found !== undefined && !found.isFile()) return;
  throw usageError(`--${option} ${output}: ${advice}`);
}

/** Refuses a result whose name and content differ: a compressed score under `.musicxml`, or the other way round. */
export function refuseMislabelled(output: string, content: Uint8Array): void {
  const kind = extname(output).toLowerCase();
  const compressed = content[0] === 0x50 && content[1] === 0x4b;
  if (compressed && PLAIN.includes(kind)) {
    throw new CliError(Exit.refused, 'the score is compressed, and so will its result be; name it .mxl');
  }
  if (!compressed && kind === COMPRESSED && content.length > 0) {
    throw new CliError(
      Exit.refused,
      'the score is not compressed, nor will its result be; name it .musicxml',
    );
  }
}
