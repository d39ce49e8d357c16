import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { ROOT, readText, tool } from './tools.js';

const manifest = (folder: string) => JSON.parse(readText(`packages/${folder}/package.json`));

describe.each(['core', 'cli'])('the package of %s', (folder) => {
  const { status, said } = tool(
    'npm',
    ['pack', '--dry-run', '--json', '--ignore-scripts'],
    `${ROOT}packages/${folder}`,
  );
  expect({ status, said: status === 0 ? '' : said }).toEqual({ status: 0, said: '' });
  const listed: unknown = JSON.parse(said);
  const [pack] = (Array.isArray(listed) ? listed : Object.values(listed as object)) as [
    { files: { path: string }[]; unpackedSize: number },
  ];
  const paths = pack.files.map(({ path }) => path);

  it('holds the build, its README, licence, changes and schema, and nothing that only we need', () => {
    console.log(`${paths.length} files, ${pack.unpackedSize} bytes unpacked`);
    const top = new Set(paths.map((path) => path.split('/')[0]));
    expect([...top].sort()).toEqual(
      [
        'CHANGELOG.md',
        'LICENSE',
        'README.md',
        'dist',
        'package.json',
        'schema',
        ...(folder === 'core' ? ['docs', 'examples'] : ['bin', 'handline.config.schema.json']),
      ].sort(),
    );
    expect(
      paths.filter(
        (path) => /tsbuildinfo|\.test\.|(?<!\.d)\.ts$/.test(path) && !path.startsWith('examples/'),
      ),
    ).toEqual([]);
    expect(paths.filter((path) => path.endsWith('.js')).length).toBeGreaterThan(5);
    for (const path of paths.filter((own) => own.endsWith('.js') && own.startsWith('dist/')))
      expect(paths).toContain(path.replace(/\.js$/, '.d.ts'));
  });

  it('has maps that hold their sources', () => {
    const maps = paths.filter((path) => path.endsWith('.map'));
    expect(maps.length).toBeGreaterThan(5);
    for (const path of maps) {
      const { sources, sourcesContent } = JSON.parse(readText(`packages/${folder}/${path}`));
      expect({ path, held: sourcesContent?.length }).toEqual({ path, held: sources.length });
    }
  });

  it('says what it is, and builds before it is packed', () => {
    const own = manifest(folder);
    expect(own).toMatchObject({
      license: 'MIT',
      publishConfig: { access: 'public' },
      scripts: { prepack: `tsc --build && node ${folder === 'core' ? 'build-bundle' : 'build-stand'}.mjs` },
      engines: manifest('core').engines,
      version: manifest('core').version,
    });
    expect(own.keywords.length).toBeGreaterThan(4);
    expect(readText(`packages/${folder}/LICENSE`)).toBe(readText('LICENSE'));
    for (const target of ['preinstall', 'install', 'postinstall', 'prepare'])
      expect(own.scripts).not.toHaveProperty(target);
    expect(readText(`packages/${folder}/README.md`)).toContain('**Caution.**');
  });
});

it('Node.js gets in one file all that others get in modules', async () => {
  const [bundle, modules] = await Promise.all(
    ['node.mjs', 'index.js'].map((file) => import(`${ROOT}packages/core/dist/${file}`)),
  );
  const required = createRequire(import.meta.url)(`${ROOT}packages/core/dist/node.cjs`);
  expect(Object.keys(required).sort()).toEqual(Object.keys(modules));
  expect(manifest('core').exports['.'].node).toBe('./dist/node.mjs');
  expect(Object.keys(bundle)).toEqual(Object.keys(modules));
  expect(Object.keys(bundle)).toContain('annotate');
});

it('the command takes the core of its own version', () => {
  expect(manifest('cli').dependencies['@handline/core']).toBe(manifest('core').version);
});

it('nothing is compiled when the project is installed', () => {
  const { packages } = JSON.parse(readText('package-lock.json')) as {
    packages: Record<string, { hasInstallScript?: boolean }>;
  };
  const scripts = Object.keys(packages).filter((path) => packages[path]!.hasInstallScript);
  // These check, or choose, a binary that came with the package; nothing fails where they do not run.
  expect(scripts.sort()).toEqual(['node_modules/@swc/core', 'node_modules/esbuild']);
  for (const name of ['gl', 'node-gyp', 'prebuild-install', 'nan', 'bindings'])
    expect(
      Object.keys(packages).filter(
        (path) => path.endsWith(`node_modules/${name}`) && existsSync(`${ROOT}${path}/binding.gyp`),
      ),
    ).toEqual([]);
});
