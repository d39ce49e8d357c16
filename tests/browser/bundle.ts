import { build } from 'esbuild';
import { ROOT } from '../musicxml/read-source.js';

/** A script that sets `handline` to what `@handline/core` exports, bundled for browsers without any setting of ours. */
export function bundled(): Promise<string> {
  return bundleOf("export * from '@handline/core';");
}

/** The script of a worker, bundled in the same way. */
export function bundledWorker(): Promise<string> {
  return bundleOf("import './packages/core/examples/worker.browser.mjs';");
}

async function bundleOf(contents: string): Promise<string> {
  const { outputFiles, warnings } = await build({
    stdin: { contents, resolveDir: ROOT },
    bundle: true,
    platform: 'browser',
    format: 'iife',
    globalName: 'handline',
    write: false,
    logLevel: 'silent',
  });
  if (warnings.length > 0) throw new Error(warnings.map(({ text }) => text).join('\n'));
  return outputFiles[0]!.text;
}
