import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { FileState } from '../../packages/cli/src/files/read.js';
import { writeResult } from '../../packages/cli/src/files/write.js';
import { DoneRecord } from '../../packages/cli/src/jobs/record.js';
import { workFolder } from './harness.js';

const folder = workFolder();
const WRITERS = 8;

/** Started together, all writers see that the name is free before any of them takes it. */
function writeTogether(force: boolean): Promise<PromiseSettledResult<void>[]> {
  return Promise.allSettled(
    Array.from({ length: WRITERS }, (_, index) =>
      writeResult(folder.at('out.musicxml'), Buffer.from(`${index}`.repeat(100_000)), {
        force,
        makeFolder: false,
      }),
    ),
  );
}

test.each([
  [true, WRITERS],
  [false, 1],
])(
  'a name that others take meanwhile: with force %s, %i of the writers succeed and the file is whole',
  async (force, writers) => {
    const results = await writeTogether(force);
    expect(results.filter((result) => result.status === 'fulfilled')).toHaveLength(writers);
    expect(readFileSync(folder.at('out.musicxml'), 'utf8')).toMatch(/^(\d)\1{99999}$/);
    expect(folder.names()).toEqual(['out.musicxml']);
  },
);

test('a run begins its record while another one that ends takes the folder of records away', async () => {
  const bytes = new Uint8Array();
  const state = { size: 0, modified: 0 } as FileState;
  const begun = async (): Promise<DoneRecord> => {
    const record = new DoneRecord(folder.path, {});
    await record.note(folder.at('a.musicxml'), bytes, state);
    return record;
  };
  let last = await begun();
  for (let run = 0; run < 400; run++) {
    const ending = last.end(false);
    for (let turn = run % 8; turn > 0; turn--) await new Promise(setImmediate);
    last = await begun();
    await ending;
  }
  await last.end(false);
  expect(folder.names()).toEqual([]);
});
