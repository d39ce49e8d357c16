import { readFile } from 'node:fs/promises';
import { CliError, Exit } from '../exit.js';
import type { Start } from './stand/start.js';

/** Where the build leaves the page, seen from the sources and from the build alike. */
const BUILT = new URL('../../dist/pages/stand/stand.html', import.meta.url);
/** What the page begins with; empty in the built page. */
const EMPTY = '<script type="application/json" id="start">{}</script>';

/**
 * The page of the stand, to be completed by what it begins with.
 *
 * @throws CliError where the build is not there
 */
export async function standPage(): Promise<(start: Start) => Uint8Array> {
  let page: string;
  try {
    page = await readFile(BUILT, 'utf8');
  } catch {
    throw new CliError(Exit.defect, 'the page is not built; npm run build makes it');
  }
  return (start) => {
    // Nothing in it ends the script.
    const data = JSON.stringify(start).replaceAll('<', '\\u003c');
    return new TextEncoder().encode(page.replace(EMPTY, () => EMPTY.replace('{}', () => data)));
  };
}
