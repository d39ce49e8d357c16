import { build } from 'esbuild';
import { ROOT } from '../musicxml/read-source.js';

/** A script that sets `handline` to what `@handline/core` exports, bundled for browsers without any setting of ours. */
export async function bundled(): Promise<string> {
  const { outputFiles, warnings } = await build({
    stdin: { contents: "export * from '@handline/core';", resolveDir: ROOT },
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
