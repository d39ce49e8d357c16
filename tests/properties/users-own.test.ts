import { annotate, clear } from '@handline/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AnnotateOptions } from '#core/options/options.js';
import { attributes, note, onePart } from '../musicxml/read-source.js';
import { RUNS } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';

const options: fc.Arbitrary<AnnotateOptions> = fc.record({
  existing: fc.constantFrom('keep', 'ignore', 'replace'),
  density: fc.constantFrom('every', 'essential'),
  legend: fc.boolean(),
});

/** What a user does to a marked score; undefined where there is nothing to do it to. */
const HABITS: readonly ((text: string) => string)[] = [
  (text) => text.replace(/(<\?handline digit \d\?>[\s\S]*?<fingering [^>]*>)\d/, '$14'),
  (text) => text.replaceAll(/<\?handline[^?]*\?>/g, ''),
  (text) => text.replaceAll(/<\?handline[^?]*\?>/g, '').replace(/(<fingering [^>]*>)\d(?=<)/, '$16'),
  (text) =>
    text.replaceAll(/<\?handline[^?]*\?>/g, '').replace(/(<words font-family="[^>]*>)[^<]*/, '$1mine'),
  (text) => text.replace(/(<\?handline cue [^?]*\?>[\s\S]*?<words[^>]*>)[^<]*/, '$1slowly'),
  (text) =>
    text.replace(/<\/note>/, '<notations><technical><fingering>5</fingering></technical></notations></note>'),
  (text) => text.replace(/<\?handline digit [^?]*\?>/, ''),
  (text) => text.replace(/<fingering [^>]*placement[^>]*>\d<\/fingering>/, '$&<up-bow/>'),
  (text) =>
    text.replace(
      /<note>/,
      '<direction><direction-type><words>dolce</words></direction-type></direction><note>',
    ),
  (text) => text.replace(/<words font-family="[^"]*"/, '<words color="#FF0000"'),
];

describe('what a user changes in a marked score', () => {
  it('is the user’s: marking anew, however often, never alters it', () => {
    let changed = 0;
    const habits = fc.subarray([...HABITS], { minLength: 1 });
    fc.assert(
      fc.property(scoreModel, options, options, habits, (model, first, second, chosen) => {
        const marked = annotate(toXml(model), first).output;
        const edited = chosen.reduce((text, habit) => habit(text), marked);
        // All that is not ours, in the form that it has without our marks.
        const { output: own } = clear(edited);
        const again = annotate(edited, second).output;
        expect(again).toBe(annotate(own, second).output);
        expect(clear(again).output).toBe(own);
        expect(clear(annotate(again, first).output).output).toBe(own);
        if (edited !== marked) changed += 1;
      }),
      { numRuns: RUNS.numRuns / 2 },
    );
    expect(changed).toBeGreaterThan(RUNS.numRuns / 4);
  });

  it('is there after a replacement is taken back: a corrected digit, a digit of the user’s beside ours', () => {
    const theirs = '<technical><fingering font-size="9">4</fingering></technical>';
    const text = onePart([attributes() + note('C5', 8) + note('D5', 8, { notations: theirs })]);
    const marked = annotate(text).output;
    const [digit = ''] = /<fingering placement="above">\d/.exec(marked) ?? [];
    const corrected = marked.replace(
      digit,
      digit.replace(/\d$/, (finger) => (finger === '5' ? '4' : '5')),
    );
    const replaced = annotate(corrected, { existing: 'replace' }).output;
    expect(replaced.match(/<fingering/g)).toHaveLength(2);
    expect(replaced).not.toContain(theirs);
    const { output } = clear(replaced);
    expect(output).toContain(theirs);
    expect(output).toMatch(/<fingering placement="above">[45]<\/fingering>/);
    expect(output).not.toContain('handline');
  });
});
