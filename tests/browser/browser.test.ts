import vm from 'node:vm';
import { beforeAll, describe, expect, it } from 'vitest';
import { bundled } from './bundle.js';
import { expectSame, refuse, SAMPLES, work } from './work.js';

let script = '';
beforeAll(async () => {
  script = await bundled();
});

describe('a bundle without anything of Node', () => {
  // The language alone, and the one thing that core takes of the web platform.
  const bare = () => vm.createContext({ TextDecoder, TextEncoder });

  it('marks and clears every kind of file as Node does', () => {
    const context = bare();
    vm.runInContext(script, context);
    vm.runInContext(`${work}`, context);
    for (const { name, bytes } of SAMPLES) {
      const made = vm.runInContext(`JSON.stringify(work(handline, ${JSON.stringify(bytes)}))`, context);
      expectSame(JSON.parse(made), name, bytes);
    }
  });

  it('refuses what is no score', () => {
    const context = bare();
    vm.runInContext(script, context);
    expect(vm.runInContext(`(${refuse})(handline)`, context)).toBe('NOT_MUSICXML');
  });
});
