import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

// npx tsx tests/fitting/write-works.ts: tests/fitting/works.json anew, the scores behind the fitted weights.

interface Row {
  readonly composer: string;
  readonly title: string;
  readonly source_path: string;
  readonly license: string;
  readonly fingered_notes: number;
  readonly work_key: string;
}

const folder = fileURLToPath(new URL('../../../shared/human-fingering/', import.meta.url));
const rows = JSON.parse(readFileSync(`${folder}manifest.json`, 'utf8')) as readonly Row[];
const works = rows.map((row) => ({
  work: row.work_key,
  composer: row.composer,
  title: row.title,
  edition: `Mutopia Project, ${row.source_path}`,
  licence: row.license,
  digits: row.fingered_notes,
}));
writeFileSync(new URL('works.json', import.meta.url), `${JSON.stringify(works, null, 2)}\n`);
