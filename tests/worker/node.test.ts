import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { annotate, annotateAsync, HandlineError, type Progress, WorkerError } from '@handline/core';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { FIXTURES } from '../scores.js';

const SCRIPT = fileURLToPath(new URL('../../packages/core/examples/worker.node.mjs', import.meta.url));
const TUNE = readFileSync(`${FIXTURES}page/hands-across.musicxml`);
const OPTIONS = { file: 'tunes.xml', language: 'de', alternatives: 1, nextBest: true } as const;

let worker: Worker;
beforeEach(() => {
  worker = new Worker(SCRIPT);
});
afterEach(() => worker.terminate());

it('a worker marks as the thread itself does, in every form of input', async () => {
  const expected = annotate(TUNE, OPTIONS);
  const bytes = await annotateAsync(TUNE, OPTIONS, { worker });
  expect(bytes.report).toEqual(expected.report);
  expect(bytes.output).toEqual(expected.output);
  expect(Object.getPrototypeOf(bytes.output)).toBe(Uint8Array.prototype);
  const buffer = new Uint8Array(TUNE).buffer;
  expect((await annotateAsync(buffer, OPTIONS, { worker })).output).toEqual(expected.output);
  expect(buffer.byteLength).toBe(TUNE.length);
  const text = TUNE.toString('utf8');
  expect((await annotateAsync(text, OPTIONS, { worker })).output).toBe(annotate(text, OPTIONS).output);
});

it('tells what begins, and how far it is, before the answer', async () => {
  const heard: Progress[] = [];
  await annotateAsync(TUNE, {}, { worker, onProgress: (progress) => heard.push(progress) });
  expect(heard.map(({ step, part, hand }) => [step, part, hand].join(' ').trim())).toEqual([
    'reading',
    'fingering P1 right',
    'fingering P1 left',
    'writing',
  ]);
  const shares = heard.map(({ share }) => share);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(shares[0]).toBe(0);
  expect(shares.at(-1)).toBeLessThan(1);
});

it('answers several calls at once, each with its own', async () => {
  const calls = (['en', 'de', 'fr'] as const).map(async (language) => {
    const { report } = await annotateAsync(TUNE, { language }, { worker });
    return report.caution;
  });
  expect(await Promise.all(calls)).toEqual(
    (['en', 'de', 'fr'] as const).map((language) => annotate(TUNE, { language }).report.caution),
  );
  for (const type of ['message', 'error', 'exit', 'messageerror']) expect(worker.listenerCount(type)).toBe(0);
});

const refusal = (work: () => unknown): HandlineError => {
  try {
    work();
  } catch (error) {
    if (error instanceof HandlineError) return error;
  }
  throw new Error('nothing is refused');
};

it.each([
  ['a file that is no score', '<html></html>', { file: 'page.html' }],
  ['a number beyond a limit', TUNE.toString('utf8'), { limits: { maxNotes: 3 } }],
  [
    'a measure that is not there',
    TUNE.toString('utf8'),
    { measures: { from: '900', to: '901' }, file: 'a: b' },
  ],
  ['a warning under strict', '<score-partwise><part-list/></score-partwise>', { strict: true, file: 'x' }],
] as const)('refuses %s with the same error as the thread itself', async (_, input, options) => {
  const expected = refusal(() => annotate(input, options));
  const error = await annotateAsync(input, options, { worker }).catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(HandlineError);
  const { code, message, place, warning } = error as HandlineError;
  expect({ code, message, place, warning }).toEqual({
    code: expected.code,
    message: expected.message,
    place: expected.place,
    warning: expected.warning,
  });
});

it('refuses a bad option at once, without the worker', async () => {
  await worker.terminate();
  await expect(annotateAsync(TUNE, { layers: ['no'] as never }, { worker })).rejects.toMatchObject({
    code: 'OPTION',
  });
});

it('an abort in the midst of the work ends it, with the reason of the signal', async () => {
  const controller = new AbortController();
  const reason = new Error('changed my mind');
  const ended = new Promise((done) => worker.once('exit', done));
  const heard: Progress[] = [];
  const call = annotateAsync(
    TUNE,
    {},
    {
      worker,
      signal: controller.signal,
      onProgress: (progress) => {
        heard.push(progress);
        controller.abort(reason);
      },
    },
  );
  await expect(call).rejects.toBe(reason);
  await ended;
  expect(heard.length).toBeGreaterThan(0);
  expect(heard.some(({ share }) => share === 1)).toBe(false);
});

it('an abort ends the other calls of a worker that tells of no end, as in a browser, and later ones', async () => {
  const silent = {
    postMessage: () => undefined,
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
    terminate: () => undefined,
  };
  const controller = new AbortController();
  const calls = [
    annotateAsync(TUNE, {}, { worker: silent, signal: controller.signal }),
    annotateAsync(TUNE, {}, { worker: silent }),
  ];
  controller.abort(new Error('enough'));
  await expect(calls[0]).rejects.toThrow('enough');
  await expect(calls[1]).rejects.toThrow('the worker ended before its answer');
  await expect(annotateAsync(TUNE, {}, { worker: silent })).rejects.toThrow(
    'the worker has ended; start a new one',
  );
});

it('a worker that its caller has ended, before any call heard of it, is refused', async () => {
  await worker.terminate();
  const call = annotateAsync(TUNE, {}, { worker });
  await expect(call).rejects.toBeInstanceOf(WorkerError);
  await expect(call).rejects.toThrow('the worker has ended; start a new one');
});

it('a worker that is being ended when it is asked is refused', async () => {
  const ending = worker.terminate();
  await expect(annotateAsync(TUNE, {}, { worker })).rejects.toBeInstanceOf(WorkerError);
  await ending;
});

it('a signal that is aborted already asks nothing of the worker', async () => {
  const call = annotateAsync(TUNE, {}, { worker, signal: AbortSignal.abort() });
  await expect(call).rejects.toMatchObject({ name: 'AbortError' });
  // It still serves others.
  await expect(annotateAsync(TUNE, {}, { worker })).resolves.toHaveProperty('report');
});

it('what goes wrong in the caller or the worker rejects the call', async () => {
  const oops = new Error('oops');
  const onProgress = () => {
    throw oops;
  };
  await expect(annotateAsync(TUNE, {}, { worker, onProgress })).rejects.toBe(oops);
  const gone = annotateAsync(TUNE, {}, { worker });
  await worker.terminate();
  await expect(gone).rejects.toThrow(new WorkerError('the worker ended before its answer'));
  worker = new Worker('throw new Error("no such script")', { eval: true });
  await expect(annotateAsync(TUNE, {}, { worker })).rejects.toThrow('no such script');
});
