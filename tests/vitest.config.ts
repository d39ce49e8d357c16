import { fileURLToPath } from 'node:url';
import { configDefaults, defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  root,
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: [...configDefaults.exclude, '**/*.long.test.ts'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    // No test measures time; these only end what hangs, on a busy machine as well.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    // Files share a process and what it has loaded: engravers, schemas, core itself. Nothing may be left changed behind a file.
    isolate: false,
    setupFiles: ['tests/seed.ts'],
    // The build is loaded by Node itself, as users load it; rewritten by the runner it would be slower than the parser beside it.
    server: { deps: { external: [/\/packages\/core\/dist\//] } },
    reporters: ['default', './tests/summary-reporter.ts'],
  },
});
