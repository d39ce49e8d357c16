import { describe, expect, it } from 'vitest';
import { type ReviewFinding, readLines } from '#core/index.js';
import { thumbUnderPalm } from '#core/review/causes/crossings.js';
import { judge } from '#core/review/measure/judged.js';
import { printedScene } from '#core/review/measure/scene.js';
import type { Hand } from '#core/score/model.js';
import { type Onsets, reviewOf, scoreOf } from './score.js';

const LEVELS = ['remark', 'worth a look', 'worth changing'] as const;

/** A passage of the right hand that common practice allows, and one much like it that it does not; mirrored for the left hand. */
interface Allowed {
  readonly what: string;
  readonly cause: ReviewFinding['cause'];
  readonly onsets: Onsets;
  readonly other: Onsets;
  /** Eighths a minute of both. */
  readonly eighths?: readonly [number, number];
}

const ALLOWED: readonly Allowed[] = [
  {
    what: 'a finger slides from a black key to the white one beside it',
    cause: 'one-finger-moves',
    onsets: 'C5=3 Bb4=2 A4=2 G4=1',
    other: 'C5=3 B4=2 A4=2 G4=1',
  },
  {
    what: 'the thumb glides by a step below a voice that is held',
    cause: 'one-finger-moves',
    onsets: 'A4=5:8 / C4=1 D4=1 E4=2 D4=1 C4=1 D4=1 E4=2 r',
    other: 'A4=5:8 / C4=1 F4=1 E4=2 D4=1 C4=1 D4=1 E4=2 r',
  },
  {
    what: 'one finger leaps over more than a hand spans',
    cause: 'one-finger-moves',
    onsets: 'C4=1 D4=2 F6=2 G6=3',
    other: 'C4=1 D4=2 F4=2 G4=3',
  },
  {
    what: 'one finger has time',
    cause: 'one-finger-moves',
    onsets: 'B3=2 F4=2 B3=2',
    other: 'B3=2 F4=2 B3=2',
    eighths: [90, 300],
  },
  {
    what: 'octaves are played legato',
    cause: 'stretch',
    onsets: 'C4=1+C5=5 D4=1+D5=4 E4=1+E5=3',
    other: 'C4=1+C5=5 G4=1+G5=5 E4=1+E5=3',
  },
  {
    what: 'the score has the same fingers again and again',
    cause: 'stretch',
    onsets: 'D4=2+C5=5 r r r D4=2+C5=5 r r r D4=2+C5=5 r r r',
    other: 'D4=2+C5=5 r r r D4=1+C5=5 r r r D4=1+C5=5 r r r',
  },
  {
    what: 'the hands share the staff',
    cause: 'one-finger-moves',
    onsets: 'C4=1 D4=2 E4=2 F4=3 G4=4 r C4+E6=5',
    other: 'C4=1 D4=2 E4=2 F4=3 G4=4 r C4=1+C5=5',
  },
];

const gravestOf = (findings: readonly ReviewFinding[], cause: string): number =>
  Math.max(-1, ...findings.filter((own) => own.cause === cause).map(({ level }) => LEVELS.indexOf(level)));

// Common practice, as packages/core/docs/review.md tells of it.
describe.each<Hand>(['right', 'left'])('what common practice allows, %s hand', (hand) => {
  it.each(ALLOWED)('is a remark at most: $what', ({ cause, onsets, other, eighths = [300, 300] }) => {
    const allowed = gravestOf(reviewOf(hand, onsets, { eighths: eighths[0] }).findings, cause);
    const told = gravestOf(reviewOf(hand, other, { eighths: eighths[1] }).findings, cause);
    expect(allowed).toBeLessThanOrEqual(LEVELS.indexOf('remark'));
    expect(told).toBeGreaterThan(allowed);
  });

  it('the thumb that crosses behind 4 over one white key, as in scales, is not pulled; over two it is', () => {
    const pulled = (onsets: Onsets) => {
      const [own] = readLines(scoreOf({ right: onsets }, { mirrored: hand === 'left' })).lines;
      return thumbUnderPalm.find(printedScene(judge(own!.line, own!.hand, own!.context)), 4) !== undefined;
    };
    expect(pulled('G4=1 A4=2 B4=3 C5=4 D5=1 E5=2')).toBe(false);
    expect(pulled('G4=1 A4=2 B4=3 C5=4 E5=1 F5=2')).toBe(true);
  });

  it('a change of many digits is told as two where each half serves', () => {
    const onsets = 'C4=5+E4=1 D4=1+F4=3 E4=5+G4=1 F4=1+A4=3 G4=5+B4=1';
    const { findings } = reviewOf(hand, onsets);
    expect(findings.filter(({ cause }) => cause === 'unholdable').length).toBeGreaterThan(1);
    for (const { remedy } of findings) expect(remedy!.digits).toBeLessThanOrEqual(4);
  });

  it('a pair that no hand of this span reaches is said to be beyond it, not called workable', () => {
    const { findings } = reviewOf(hand, 'C4=2+C5=5 r r r r r C4=1+E6=5');
    const [found] = findings.filter(({ cause }) => cause === 'stretch');
    expect(found!.text).toContain('lie further apart than this hand reaches');
    expect(found!.level).not.toBe('remark');
  });

  it('of keys beyond this hand a remark does not say that they work', () => {
    const { findings } = reviewOf(hand, 'B3=1+D4=2+G4=3 D4=1+F4=3+B4=5 B3+D4+G4');
    const [found] = findings.filter(({ cause }) => cause === 'stretch');
    expect(found!.level).toBe('remark');
    expect(found!.text).toMatch(/reaches\. The printed fingering takes \d+ mm more, mostly stretch$/);
  });
});
