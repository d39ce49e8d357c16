import { readFileSync } from 'node:fs';

const manifest = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');

export const { version: VERSION } = JSON.parse(manifest) as { version: string };
