import { readFileSync } from 'node:fs';

/** Of the command, as in its package. */
export const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as {
  readonly version: string;
};
