// Marks a file that was chosen in a page. Bundlers find the worker's script by this form of `new URL`.
import { annotateAsync } from '@handline/core';

/**
 * @param {Blob} file
 * @param {AbortSignal} [signal]
 * @param {(share: number) => void} [onShare]
 */
export async function markFile(file, signal, onShare) {
  const worker = new Worker(new URL('worker.browser.mjs', import.meta.url), { type: 'module' });
  try {
    const { output, report } = await annotateAsync(
      await file.arrayBuffer(),
      { language: 'en' },
      { worker, ...(signal && { signal }), onProgress: ({ share }) => onShare?.(share) },
    );
    return { marked: new Blob([output]), report };
  } finally {
    worker.terminate();
  }
}
