import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { clear, mark, read } from '../musicxml/write-source.js';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { markPlan, marksOf } from '../properties/marks.js';
import { RUNS } from '../rounds.js';
import { schema, type Validate } from './schema.js';

/** What real exports do to a note, as changes of its text. */
const FLAWS: readonly ((note: string) => string)[] = [
  (note) => note.replace(/<tie [^>]*>/, '').replace('</note>', '<tie type="start"/></note>'),
  (note) => note.replace(/<voice>/, '<tie type="stop"/><tied type="stop"/><voice>'),
  (note) => note.replace(/<duration>\d+/, '<duration>0'),
  (note) => note.replace(/<duration>/, '<duration>-'),
  (note) => note.replace(/<duration>\d+<\/duration>/, ''),
  (note) => note.replace(/<voice>.*?<\/voice>/, '$&$&'),
  (note) => note.replace(/(<staff>.*?<\/staff>)([\s\S]*)<\/note>/, '$2$1</note>'),
  (note) => note.replace(/<type>\w+/, '<type>crotchet'),
  (note) => note.replace('</note>', '<lyric/><notations/></note>'),
  (note) => note.replace('<voice>', '<notations><technical/><technical/></notations><voice>'),
  (note) =>
    note.replace('</note>', '<notations><technical><fingering/><nothing/></technical></notations></note>'),
  (note) => note.replace('</note>', '<notations><technical>text</technical></notations></note>'),
];

describe('scores that break the schema', () => {
  let complaints: Validate;
  beforeAll(() => {
    complaints = schema();
  });

  it('get no worse: as many complaints after marking, and the same text after clearing', () => {
    let [flawed, marked] = [0, 0];
    const flaws = fc.array(fc.nat(2 * FLAWS.length), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(scoreModel, markPlan, flaws, (model, plan, chosen) => {
        let at = 0;
        const valid = toXml({ ...model, style: { ...model.style, noise: [0] } });
        const text = valid.replaceAll(/<note>[\s\S]*?<\/note>/g, (note) => {
          const flaw = FLAWS[chosen[at++ % chosen.length] as number];
          return flaw === undefined ? note : flaw(note);
        });
        const before = complaints(text);
        const output = mark(text, marksOf(plan, read(text).score));
        expect(complaints(output).length).toBeLessThanOrEqual(before.length);
        expect(clear(output).text).toBe(text);
        if (before.length > 0) flawed += 1;
        if (output !== text) marked += 1;
      }),
      RUNS,
    );
    console.log(`imperfect scores: ${flawed} of ${RUNS.numRuns} invalid before, ${marked} marked`);
    expect(Math.min(flawed, marked)).toBeGreaterThan(RUNS.numRuns / 2);
  });
});
