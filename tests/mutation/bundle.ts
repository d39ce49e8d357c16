import { createRequire } from 'node:module';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { build } from 'esbuild';

/** Loads the test file of this path; what several files import is loaded once a bundle. */
export type Load = (file: string) => void;

/** What takes the place of vitest, for the bundled tests. */
export const VITEST = '__handline_vitest';

/** How often a property draws at most: a global, so that it can be set test by test. */
export const DRAWS = '__handline_draws';
const FEWER_DRAWS = `const fc = require('fast-check');
const assert = (property, more) =>
  fc.assert(property, { ...more, numRuns: Math.min(more?.numRuns ?? 100, globalThis.${DRAWS}) });
module.exports = { ...fc, assert };`;

/**
 * Bundles test files and the sources that they import, and returns a function that starts with all modules unloaded: mutants
 * share the compiled code, and nothing that a module remembers.
 */
export async function bundle(root: string, files: readonly string[]): Promise<() => Load> {
  const { outputFiles } = await build({
    stdin: {
      contents: `exports.files = {${files.map((file) => `${JSON.stringify(file)}: () => require(${JSON.stringify(file)})`)}};
exports.setup = () => require(${JSON.stringify(resolve(root, 'tests/mutation/setup.ts'))});`,
      resolveDir: root,
    },
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    logLevel: 'error',
    alias: { '@handline/core': resolve(root, 'packages/core/src/index.ts') },
    plugins: [
      {
        name: 'tests',
        setup(build) {
          build.onResolve({ filter: /^vitest$/ }, () => ({ path: 'vitest', namespace: 'runner' }));
          build.onLoad({ filter: /.*/, namespace: 'runner' }, () => ({
            contents: `module.exports = globalThis.${VITEST};`,
          }));
          build.onResolve({ filter: /^fast-check$/ }, ({ namespace }) =>
            namespace === 'draws'
              ? { path: 'fast-check', external: true }
              : { path: 'fast-check', namespace: 'draws' },
          );
          build.onLoad({ filter: /.*/, namespace: 'draws' }, () => ({ contents: FEWER_DRAWS }));
          build.onResolve({ filter: /^[^./#]/ }, ({ path }) =>
            path === '@handline/core' ? undefined : { path, external: true },
          );
          build.onLoad({ filter: /\.ts$/ }, async ({ path }) => {
            const { readFile } = await import('node:fs/promises');
            const text = await readFile(path, 'utf8');
            return {
              loader: 'ts',
              contents: text
                .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href))
                .replaceAll('import.meta.dirname', JSON.stringify(dirname(path))),
            };
          });
        },
      },
    ],
  });
  const text = outputFiles[0]!.text;
  const script = new Script(`(function (exports, require, module) {${text}\n})`, {
    filename: resolve(root, 'bundle.cjs'),
  });
  const require = createRequire(resolve(root, 'package.json'));
  const core = createRequire(resolve(root, 'packages/core/package.json'));
  const esm: Record<string, unknown> = { 'libxml2-wasm': await import('libxml2-wasm') };
  const find = (name: string): unknown => {
    if (esm[name] !== undefined) return esm[name];
    try {
      return core(name);
    } catch {
      return require(name);
    }
  };
  return () => {
    const module = { exports: {} as { files: Record<string, () => void>; setup: () => void } };
    script.runInThisContext()(module.exports, find, module);
    module.exports.setup();
    return (file) => module.exports.files[file]!();
  };
}
