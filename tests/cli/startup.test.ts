import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { expect, test } from 'vitest';

/** Files that Node.js loads before a command is called: all that are reached without an `import()`. */
test('help loads neither core nor what only some runs need', async () => {
  const { metafile } = await build({
    absWorkingDir: fileURLToPath(new URL('../..', import.meta.url)),
    entryPoints: ['packages/cli/src/main.ts'],
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    outdir: 'unwritten',
    write: false,
    metafile: true,
  });
  const outputs = Object.entries(metafile.outputs);
  const entry = outputs.find(([, { entryPoint }]) => entryPoint?.endsWith('cli/src/main.ts'));
  const loaded = new Set<string>();
  const load = (name: string): void => {
    if (loaded.has(name)) return;
    loaded.add(name);
    for (const { path, kind } of metafile.outputs[name]?.imports ?? []) {
      if (kind === 'import-statement' && metafile.outputs[path] !== undefined) load(path);
    }
  };
  load(entry?.[0] ?? '');
  const files = (of: (name: string) => boolean) =>
    outputs.filter(([name]) => of(name)).flatMap(([, { inputs }]) => Object.keys(inputs));
  const heavy =
    /packages\/core\/|node_modules\/(?:tinypool|tinyglobby|cli-progress|ignore|leven|xmlbuilder2)\//;
  expect(files((name) => loaded.has(name)).filter((file) => heavy.test(file))).toEqual([]);
  expect(files((name) => loaded.has(name))).toContain('packages/cli/src/program.ts');
  expect(files((name) => !loaded.has(name))).toContain('packages/core/dist/node.mjs');
});
