import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { annotate } from '#core/annotate.js';
import { readScore } from '#core/musicxml/read/score.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { equal, subtract } from '#core/numeric/fraction.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { FIXTURES } from '../scores.js';

/** Programs set texts in the order of the file, so that those of a hand go from left to right where they can. */
it('a cue stands before the first in the file of the notes that are struck with it on its staff', () => {
  let [cues, ofSeveralVoices] = [0, 0];
  for (const name of ['schumann-op15-7', 'chopin-op45', 'tchaikovsky-op39-1', 'bach-bwv928']) {
    const original = readFileSync(`${FIXTURES}scores/${name}.musicxml`, 'utf8');
    const { output, report } = annotate(original, { density: 'every' });
    const { score } = readScore(parseTree(output, DEFAULT_LIMITS), output, { limits: DEFAULT_LIMITS });
    const { notes, measures } = score.parts[0]!;
    for (const { slices } of report.lines) {
      for (const { cue, keys, measureIndex, exactBeat } of slices) {
        if (cue === undefined) continue;
        const start = measures[measureIndex]!.start;
        const there = notes.filter(
          ({ measure, onset }) =>
            measure === measureIndex &&
            equal(subtract(onset, start), subtract(exactBeat, { num: 1, den: 1 })),
        );
        const struck = there.filter(({ key, tiedFrom }) => keys.includes(key) && tiedFrom < 0);
        const lowest = struck.find(({ key }) => key === keys[0])!;
        // Which of the grace notes before a note is meant the beat does not tell.
        if (lowest === undefined || there.some(({ grace }) => grace >= 0)) continue;
        const first = struck.find(({ staff }) => staff === lowest.staff)!;
        cues++;
        if (first.voice !== lowest.voice) ofSeveralVoices++;
        let head = first.id;
        while (notes[head]!.chord) head--;
        const before = notes[head - 1]?.span.end ?? 0;
        expect(output.slice(before, notes[head]!.span.start), `${name}, ${measureIndex + 1}`).toContain(
          '<?handline cue ',
        );
      }
    }
  }
  expect(cues).toBeGreaterThan(100);
  expect(ofSeveralVoices).toBeGreaterThan(10);
});
