import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HandlineError } from '#core/score/errors.js';
import { clear, mark, read } from '../musicxml/write-source.js';
import { RUNS } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';
import { markPlan, marksOf } from './marks.js';

const TOKEN = /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<[^>]*>[^<]*/g;
// What somebody may have put anywhere into a marked file.
const STRANGE = [
  '<!-- mine -->',
  '<?handline digit 3?>',
  '<?handline digit 3 s4?>',
  '<?handline cue in?>',
  '<?handline kept %3Cfingering%3E2%3C%2Ffingering%3E?>',
  '<fingering placement="above">3</fingering>',
  '<notations><technical><fingering placement="above">3</fingering></technical></notations>',
  '<words font-family="serif,handline-i3gxwe.a1c2e!4!">in</words>',
  '<direction><direction-type><words font-family="handline-i3gxwe.c3c3e.a1c2e3f4!4!">in</words></direction-type></direction>',
  'text',
];

const tampering = fc.array(
  fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    to: fc.double({ min: 0, max: 1, noNaN: true }),
    what: fc.constantFrom('insert', 'copy', 'move', 'delete'),
    strange: fc.constantFrom(...STRANGE),
  }),
  { minLength: 1, maxLength: 25 },
);

/** Changes a marked text between its tokens; it stays well-formed where only whole elements are touched. */
function tamper(text: string, changes: typeof tampering extends fc.Arbitrary<infer T> ? T : never): string {
  const tokens = text.match(TOKEN) ?? [];
  for (const { at, to, what, strange } of changes) {
    const body = tokens.findIndex((token) => token.startsWith('<attributes'));
    const pick = (share: number) => body + Math.floor(share * (tokens.length - 4 - body));
    const [from, target] = [pick(at), pick(to)];
    const token = tokens[from] as string;
    if (what === 'insert') tokens.splice(target, 0, strange);
    else if (token.startsWith('<?handline')) {
      if (what !== 'copy') tokens.splice(from, 1);
      if (what !== 'delete') tokens.splice(target, 0, token);
    }
  }
  return tokens.join('');
}

describe('clear on marked scores that somebody has tampered with', () => {
  it('gives a well-formed score or refuses one that was none, and leaves nothing of ours to do', () => {
    let [cleared, warned] = [0, 0];
    fc.assert(
      fc.property(scoreModel, markPlan, tampering, (model, plan, changes) => {
        const original = toXml(model);
        const tampered = tamper(mark(original, marksOf(plan, read(original).score)), changes);
        let first: ReturnType<typeof clear>;
        try {
          first = clear(tampered);
        } catch (error) {
          expect(error).toBeInstanceOf(HandlineError);
          return;
        }
        cleared++;
        if (first.warnings.length > 0) warned++;
        // Everything but our marks is still there, comments of the user's among it.
        expect(count(first.text, '<!-- mine -->')).toBe(count(tampered, '<!-- mine -->'));
        expect(count(first.text, '<note>')).toBe(count(tampered, '<note>'));
        const kept = count(tampered, '<?handline kept') - count(first.text, '<?handline kept');
        expect(count(first.text, '<fingering')).toBeGreaterThanOrEqual(kept);
        // Only replaced digits that cannot go back are left; a second run finds no more to take out.
        const second = clear(first.text);
        expect(second.text).toBe(first.text);
      }),
      RUNS,
    );
    console.log(`tampered scores: ${cleared} of ${RUNS.numRuns} cleared, ${warned} with warnings`);
    expect(warned).toBeGreaterThan(RUNS.numRuns / 4);
  });
});

function count(text: string, part: string): number {
  return text.split(part).length - 1;
}
