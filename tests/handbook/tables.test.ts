import { describe, expect, it } from 'vitest';
import { isBlack, mirrorKey } from '#core/keyboard/key-plan.js';
import type { Hand } from '#core/score/model.js';
import { type Kind, type Passage, passage, passages, STEPS, TABLES } from './tables.js';

const HANDS: readonly Hand[] = ['right', 'left'];
const SCALES: readonly Kind[] = ['major scale', 'harmonic minor scale'];
const ARPEGGIOS: readonly Kind[] = ['major arpeggio', 'minor arpeggio'];
const KINDS = [...SCALES, ...ARPEGGIOS];

/** The cyclic group, starting behind its first thumb passing, read away from the thumb. */
const rotations = (group: string): string[] =>
  [...group].map((_, at) => group.slice(at) + group.slice(0, at));

const groupOf = ({ kind, tonic, hand }: Passage): string => TABLES[kind][tonic]![hand === 'right' ? 0 : 1];

/** Finger of every key within the octave, as the right hand sees it. */
function byKey({ hand, keys }: Passage, group: string): Map<number, string> {
  const view = (key: number) => (hand === 'right' ? key : mirrorKey(key)) % 12;
  return new Map([...group].map((digit, at) => [view(keys[at]!), digit]));
}

describe('the handbook tables are consistent', () => {
  it('cover twelve tonics of each kind', () => {
    for (const kind of KINDS) {
      for (const hand of HANDS) {
        const tonics = passages([kind], hand).map(({ keys }) => keys[0]! % 12);
        expect(new Set(tonics).size).toBe(12);
      }
    }
  });

  it.each(HANDS)('scales, %s hand: 123 and 1234 in turn, thumbs on white keys', (hand) => {
    for (const own of passages(SCALES, hand)) {
      const upwards = hand === 'right' ? '1231234' : '4321321';
      expect(rotations(upwards), own.name).toContain(groupOf(own));
      const thumbs = [...groupOf(own)].flatMap((digit, at) => (digit === '1' ? [own.keys[at]!] : []));
      expect(thumbs.filter(isBlack), own.name).toEqual([]);
    }
  });

  it.each(HANDS)('arpeggios, %s hand: 123 or 124, thumbs on white keys where there is one', (hand) => {
    for (const own of passages(ARPEGGIOS, hand)) {
      const upwards = hand === 'right' ? ['123', '124'] : ['321', '421'];
      expect(upwards.flatMap(rotations), own.name).toContain(groupOf(own));
      const keys = own.keys.slice(0, 3);
      const thumb = keys[[...groupOf(own)].indexOf('1')]!;
      expect(isBlack(thumb) && !keys.every(isBlack), own.name).toBe(false);
    }
  });

  it('scales with five black keys mirror each other about D', () => {
    for (const [right, left] of [
      ['B', 'D flat'],
      ['D flat', 'B'],
      ['G flat', 'G flat'],
    ] as const) {
      const [one, other] = [passage('major scale', right, 'right'), passage('major scale', left, 'left')];
      const sorted = (own: Passage) => [...byKey(own, groupOf(own))].sort(([a], [b]) => a - b);
      expect(sorted(other)).toEqual(sorted(one));
    }
  });

  it('passages have a digit for every key and only the ends differ', () => {
    for (const hand of HANDS) {
      for (const { forms, keys, kind, name } of passages(KINDS, hand)) {
        expect(keys.length, name).toBe(4 * STEPS[kind].length + 1);
        for (const form of forms) {
          expect(form, name).toMatch(new RegExp(`^[1-5]{${keys.length}}$`));
          expect([...form].reverse().join('')).toBe(form);
          const differing = [...form].filter((digit, at) => digit !== forms[0]![at]).length;
          expect(differing).toBeLessThanOrEqual(4);
          // Neighbours never share a finger, and a passing is a thumb's.
          for (let at = 1; at < form.length; at++) {
            const way = Math.sign(keys[at]! - keys[at - 1]!) * (hand === 'right' ? 1 : -1);
            const step = (Number(form[at]) - Number(form[at - 1])) * way;
            expect(step, `${name} at ${at}: ${form}`).not.toBe(0);
            if (step < 0) expect(form.slice(at - 1, at + 1), name).toContain('1');
          }
        }
      }
    }
  });
});
