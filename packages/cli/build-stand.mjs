// Bundles the page of `handline stand` into dist/pages/stand/stand.html: one file, with its workers compressed in it.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { licencesOf, listed, packagesIn } from './licences.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));
const FROM = join(HERE, 'src/pages/stand');
const TO = join(HERE, 'dist/pages/stand/stand.html');
const read = (path) => readFileSync(path, 'utf8');
const { version } = JSON.parse(read(join(HERE, 'package.json')));

/** A script in one piece, and the packages in it. */
async function bundled(entry, format) {
  const { outputFiles, metafile } = await build({
    entryPoints: [join(FROM, entry)],
    bundle: true,
    minify: true,
    format,
    platform: 'browser',
    target: 'es2022',
    write: false,
    metafile: true,
    logLevel: 'warning',
    // verovio's module asks for Node.js where it runs in it, and for its own address where it does not.
    external: ['node:*'],
    logOverride: { 'empty-import-meta': 'silent' },
  });
  return { text: outputFiles[0].text, packages: packagesIn(metafile) };
}

const page = await bundled('main.ts', 'esm');
const marking = await bundled('workers/marking.ts', 'iife');
const drawing = await bundled('workers/drawing.ts', 'iife');
const licences = licencesOf([page, marking, drawing].flatMap(({ packages }) => packages));
const verovio = licences.find(({ name }) => name === 'verovio');
const texts = listed([
  `Handline ${version}, MIT\n\n${read(join(HERE, 'LICENSE')).trim()}`,
  ...licences.map(({ stated }) => stated),
  // Section 4 b of the LGPL asks for both with a work that contains the library.
  ...['LGPL-3.0', 'GPL-3.0'].map((name) => read(join(FROM, `licences/${name}.txt`)).trim()),
]);

const style = read(join(FROM, 'stand.css'));
const script = page.text.replaceAll('</script', '<\\/script');
const hash = createHash('sha256').update(script).digest('base64');
// Scripts run by their hash alone, and nothing can be loaded or sent. Styles are free because every engraved system
// brings rules of its own; with nothing to load, they can do no more than look wrong.
const policy = [
  "default-src 'none'",
  `script-src 'sha256-${hash}' 'wasm-unsafe-eval'`,
  'worker-src blob:',
  "style-src 'unsafe-inline'",
  'font-src data:',
  'img-src data:',
  "connect-src 'none'",
  "form-action 'none'",
  "base-uri 'none'",
].join('; ');
const packed = (id, { text }) =>
  `<script type="text/plain" id="${id}">${gzipSync(text, { level: 9 }).toString('base64')}</script>`;
const html = read(join(FROM, 'stand.html'))
  .replace('<html lang="en">', `<html lang="en" data-version="${version}" data-verovio="${verovio.version}">`)
  .replace('content=""', () => `content="${policy}"`)
  .replace('<style></style>', () => `<style>${style}</style>`)
  .replace(
    '<!--blocks-->',
    () =>
      `<script type="text/plain" id="licence-texts">${texts.replaceAll('</', '<\\/')}</script>\n${packed('marking', marking)}\n${packed('drawing', drawing)}\n<script type="module">${script}</script>`,
  );
writeFileSync(TO, html);
