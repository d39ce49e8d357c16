// Marks a score in a worker, with progress; Ctrl-C aborts: node async.node.mjs IN OUT
import { readFile, writeFile } from 'node:fs/promises';
import { Worker } from 'node:worker_threads';
import { annotateAsync } from '@handline/core';

const [input, output] = process.argv.slice(2);
const worker = new Worker(new URL('worker.node.mjs', import.meta.url));
const controller = new AbortController();
process.once('SIGINT', () => controller.abort());

const marked = await annotateAsync(
  await readFile(input),
  { file: input },
  {
    worker,
    signal: controller.signal,
    onProgress: ({ step, hand, share }) => console.log(`${Math.round(100 * share)} %`, step, hand ?? ''),
  },
);
await writeFile(output, marked.output);
console.log('100 %', marked.report.caution);
await worker.terminate();
