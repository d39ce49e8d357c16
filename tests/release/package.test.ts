import { existsSync } from 'node:fs';
import { createRequire, isBuiltin } from 'node:module';
import { build } from 'esbuild';
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
  });

  it('has declarations and maps of all modules, or is a command that nobody imports', () => {
    const maps = paths.filter((path) => path.endsWith('.map'));
    if (folder === 'cli') {
      expect(maps).toEqual([]);
      expect(Object.keys(manifest(folder).exports).filter((path) => !path.endsWith('.json'))).toEqual([]);
      return;
    }
    for (const path of paths.filter((own) => own.endsWith('.js') && own.startsWith('dist/')))
      expect(paths).toContain(path.replace(/\.js$/, '.d.ts'));
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
      scripts: {
        prepack:
          folder === 'core'
            ? 'tsc --build && node build-bundle.mjs'
            : 'tsc --build && node build-command.mjs && node build-stand.mjs',
      },
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

it('the command brings the core of its own version, and the licences of all that it brings', async () => {
  const { devDependencies, dependencies } = manifest('cli');
  expect(devDependencies['@handline/core']).toBe(manifest('core').version);
  const brought = Object.keys({ ...devDependencies, ...manifest('core').dependencies }).filter(
    (name) => !['esbuild', '@handline/core'].includes(name),
  );
  const licences = readText('packages/cli/dist/command/licences.txt');
  for (const name of brought) expect(licences).toMatch(new RegExp(`^${name} \\d.*\\n\\n[^]{200}`, 'm'));
  const { metafile } = await build({
    absWorkingDir: ROOT,
    entryPoints: ['packages/cli/dist/command/main.js', 'packages/cli/dist/command/worker.js'],
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    packages: 'external',
    outdir: 'unwritten',
    write: false,
    metafile: true,
  });
  const asked = Object.values(metafile.inputs).flatMap(({ imports }) =>
    imports.filter(({ external }) => external),
  );
  const packages = new Set(
    asked
      .map(({ path }) => path)
      .filter((path) => !isBuiltin(path))
      .map((path) => path.split('/')[0]),
  );
  expect([...packages].sort()).toEqual(Object.keys(dependencies).sort());
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
