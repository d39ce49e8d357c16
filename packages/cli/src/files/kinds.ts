import { extname } from 'node:path';
import { CliError, Exit, usageError } from '../exit.js';

const PLAIN = ['.musicxml', '.xml'];
const COMPRESSED = '.mxl';
const PAGES = ['.html', '.htm'];
/** Letters and perhaps digits: `No.2` is no kind of file. */
const KIND = /^\.[a-z][a-z0-9]{0,9}$/;

/** Refuses a result's name that promises anything but MusicXML, such as `waltz.pdf`. */
export function refuseName(output: string): void {
  const kind = extname(output).toLowerCase();
  if (KIND.test(kind) && kind !== COMPRESSED && !PLAIN.includes(kind)) {
    throw usageError(`--output ${output}: the result is MusicXML; name it .musicxml or, compressed, .mxl`);
  }
}

/**
 * Refuses a page's name that promises anything but HTML.
 *
 * @param option that gave the name
 */
export function refusePageName(output: string, option = 'output'): void {
  const kind = extname(output).toLowerCase();
  if (KIND.test(kind) && !PAGES.includes(kind))
    throw usageError(`--${option} ${output}: the result is a page of HTML; name it .html`);
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
