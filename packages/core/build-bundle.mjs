// Bundles dist/index.js into dist/node.mjs, which Node.js loads instead: to find and read some 350 modules takes it longer
// than to mark a short score. What others bundle themselves stays in modules, of which they take those that they need.
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

await build({
  absWorkingDir: fileURLToPath(new URL('.', import.meta.url)),
  entryPoints: ['dist/index.js'],
  outfile: 'dist/node.mjs',
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  packages: 'external',
  sourcemap: true,
  logLevel: 'warning',
});
