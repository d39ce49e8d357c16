import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import quick from '../vitest.config.js';

/** Mutants live in core's sources: tests that load the build would never meet them. */
const core = fileURLToPath(new URL('../../packages/core/src/index.ts', import.meta.url));

export default defineConfig({
  ...quick,
  resolve: { alias: { '@handline/core': core } },
  test: {
    ...quick.test,
    // Engraving a page for every mutant would take hours, and judges the page rather than a room.
    exclude: ['tests/page/**'],
    include: (process.env.HANDLINE_JUDGES ?? 'tests/**/*.test.ts').split(','),
    setupFiles: ['tests/seed.ts'],
    reporters: [],
  },
});
