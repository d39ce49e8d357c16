// What the packages that we bundle ask us to say with them.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const HERE = dirname(fileURLToPath(import.meta.url));
const read = (path) => readFileSync(path, 'utf8');
const require = createRequire(import.meta.url);

/** What is said of packages that bring no licence text of their own. */
const OWN_TEXTS = { verovio: read(join(HERE, 'src/pages/stand/licences/verovio.txt')).trim() };

/** Names of the packages in a bundle of esbuild's. */
export function packagesIn(metafile) {
  return Object.keys(metafile.inputs).flatMap(
    (path) => /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? [],
  );
}

/** Name, version and statement of each package, the licence text included. */
export function licencesOf(names) {
  return [...new Set(names)].sort().map(licenceOf);
}

/** Statements one below the other. */
export function listed(statements) {
  return statements.join(`\n\n${'-'.repeat(60)}\n\n`);
}

function licenceOf(name) {
  const folder = packageFolder(name);
  const own = JSON.parse(read(join(folder, 'package.json')));
  const texts = ['LICENSE', 'LICENSE.md', 'LICENSE.txt', 'license'].flatMap((file) => {
    try {
      return [read(join(folder, file)).trim()];
    } catch {
      return [];
    }
  });
  const text = texts[0] ?? OWN_TEXTS[name] ?? mitOf(own);
  const { version, license, homepage = '' } = own;
  const stated = `${name} ${version}, ${license}${homepage ? `, ${homepage}` : ''}\n\n${text}`.trim();
  return { name, version, stated };
}

/** The usual text for a package that names its licence alone. */
function mitOf({ name, license, author }) {
  if (license !== 'MIT') throw new Error(`${name} has no licence text, and is under ${license}`);
  const holder = typeof author === 'object' ? author.name : author;
  return read(join(HERE, 'LICENSE'))
    .trim()
    .replace(/^Copyright.*$/m, `Copyright (c) ${holder ?? `the authors of ${name}`}`);
}

function packageFolder(name) {
  for (const base of require.resolve.paths(name)) {
    try {
      read(join(base, name, 'package.json'));
      return join(base, name);
    } catch {}
  }
  throw new Error(`${name} is not installed`);
}
