import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { planCues } from '#core/cues/cues.js';
import { planMotion } from '#core/motion/motion.js';
import type { Density, Layer } from '#core/options/options.js';
import type { Finger } from '#core/score/model.js';
import { lineOf, mirrored, type Step } from '../motion/lines.js';

/*
 * What a teacher expects of each layer, case by case, in both hands: the right hand's steps, and the same mirrored about D
 * for the left. All facts: common practice.
 */

const DENSITIES: readonly Density[] = ['every', 'essential'];

/** `60:1 64+67:24`: keys and their fingers; `_` before a step is a rest of the hand, `.` a note let go early. */
function steps(sketch: string): readonly Step[] {
  return sketch.split(' ').map((word) => {
    const [, before, keys = '', fingers = ''] = /^([_.]?)([\d+]+):(\d+)$/.exec(word) ?? [];
    return {
      keys: keys.split('+').map(Number),
      fingers: [...fingers].map((digit) => Number(digit) as Finger),
      ...(before === '_' && { free: 0.5 }),
      ...(before === '.' && { free: 0.1 }),
    };
  });
}

const OTHER = { 'then right': 'then left', 'then left': 'then right' } as const;

/** What is said to both hands, `3: thumb passes`; fails where they are not told alike. */
function said(layer: Layer, sketch: string, seconds: number, density: Density): readonly string[] {
  const own = steps(sketch);
  const [right, left] = (['right', 'left'] as const).map((hand) => {
    const given = lineOf(hand, hand === 'right' ? own : mirrored(own), seconds);
    const plan = planMotion(given.line, given.fingers, handModel());
    return planCues(given.line, plan, { layers: [layer], density, language: 'en' }).map(({ slice, text }) => {
      const mine = hand === 'left' ? (OTHER[text as keyof typeof OTHER] ?? text) : text;
      return `${slice}: ${mine}`;
    });
  });
  expect(left).toEqual(right);
  return right!;
}

type Case = readonly [name: string, sketch: string, seconds: number, cues: readonly string[]];

/** Expects these cues of every and of essential. */
function expectSaid(layer: Layer, cases: readonly Case[]): void {
  it.each(cases)('%s', (_, sketch, seconds, cues) => {
    for (const density of DENSITIES) expect(said(layer, sketch, seconds, density)).toEqual(cues);
  });
}

describe('a thumb crossing is told of', () => {
  expectSaid('crossing', [
    ['where the thumb passes 3 in a line', '60:1 62:2 64:3 65:1 67:2', 0.3, ['3: thumb passes']],
    ['where it passes 2', '60:1 62:2 64:1', 0.3, ['2: thumb passes']],
    ['where it passes 4', '60:1 62:2 64:3 65:4 67:1', 0.3, ['4: thumb passes']],
    ['where 3 passes over it', '67:5 65:4 64:3 62:2 60:1 59:3', 0.3, ['5: over the thumb']],
    ['where 2 and 4 pass over it', '60:1 59:2 57:1 55:4', 0.7, ['1: over the thumb', '3: over']],
    ['in an arpeggio', '48:1 52:2 55:3 60:1 64:2', 0.3, ['3: thumb passes']],
    ['up to a fifth', '60:3 67:1', 0.3, ['1: thumb passes']],
  ]);
});

describe('no thumb crossing is told of', () => {
  expectSaid('crossing', [
    ['beyond a fifth', '60:3 68:1', 0.3, []],
    ['at a third plus an octave', '60:3 76:1', 0.3, []],
    ['at a leap of an octave', '60:3 72:1', 0.3, []],
    ['at a leap from chord to chord', '60+64+67:124 65+69+72:124', 0.3, []],
    ['at a leap from a third to an octave', '64+67:24 68+80:15', 0.3, []],
    ['at a leap of an octave chord', '60+72:15 74+86:15', 0.3, []],
    ['where fingers change on one key', '60:4 60:3 60:2 60:1', 0.3, []],
    ['where the thumb takes over the key of 3', '60:1 64:3 64:1', 0.3, []],
    ['behind 5, which the thumb cannot pass', '60:5 62:1', 0.3, []],
    ['after a rest', '60:1 62:2 64:3 _65:1', 0.3, []],
    ['where the note before is let go early', '60:1 62:2 64:3 .65:1', 0.3, []],
    ['in five-finger position', '60:1 62:2 64:3 65:4 67:5 65:4 64:3 62:2 60:1', 0.3, []],
  ]);
});

describe('one scale is marked evenly', () => {
  const scale =
    '48:1 50:2 52:3 53:1 55:2 57:3 59:4 60:1 62:2 64:3 65:1 67:2 69:3 71:4 72:5 71:4 69:3 67:2 65:1 64:3 62:2 60:1 59:4';
  it('each crossing, at any pace', () => {
    const all = ['3: thumb passes', '7: thumb', '10: thumb'];
    const back = ['19: over the thumb', '22: over'];
    for (const density of DENSITIES)
      expect(said('crossing', scale, 0.05, density)).toEqual([...all, ...back]);
  });
});

describe('the roll is one rotation', () => {
  expectSaid('roll', [
    ['in an Alberti bass', '60:1 67:5 64:3 67:5 60:1 67:5 64:3 67:5', 0.2, ['0: rotate']],
    ['in one whose harmony changes', '60:1 67:5 64:2 67:5 59:1 67:5 62:2 67:5', 0.2, ['0: rotate']],
    ['in broken octaves', '60:1 72:5 62:1 74:5 64:1 76:5 65:1 77:5', 0.2, ['0: rotate']],
    ['in broken octaves down', '84:5 72:1 83:5 71:1 81:5 69:1', 0.2, ['0: rotate']],
    ['in a tremolo of a sixth', '60:1 69:5 60:1 69:5 60:1 69:5', 0.1, ['0: rotate']],
    ['in a tremolo of chords', '60:1 67+72:35 60:1 67+72:35 60:1 67+72:35', 0.1, ['0: rotate']],
    ['in a trill of neighbours', '64:2 65:3 64:2 65:3 64:2 65:3', 0.1, ['0: rotate']],
    ['in a trill of 1 and 3', '66:1 68:3 66:1 68:3 66:1 68:3 66:1', 0.1, ['0: rotate']],
  ]);

  it('and none where a line only turns about, or in slow notes', () => {
    const turning = '67:2 65:1 64:3 62:2 64:3 65:4 64:3 62:2 60:1';
    for (const density of DENSITIES) {
      expect(said('roll', turning, 0.2, density).join()).not.toContain('rotate');
      expect(said('roll', '60:1 67:5 64:3 67:5 60:1 67:5', 0.5, density).join()).not.toContain('rotate');
    }
  });

  it('is told once more where the figure comes back after something else', () => {
    const figure = '60:1 67:5 64:3 67:5 60:1 67:5';
    const again = `${figure} _72:3 72:3 _72:3 72:3 _72:3 72:3 _72:3 72:3 _72:3 72:3 _72:3 72:3 _72:3 72:3 _72:3 72:3 _72:3 72:3 _${figure}`;
    const rotations = said('roll', again, 0.2, 'essential').filter((cue) => cue.endsWith('rotate'));
    expect(rotations).toEqual(['0: rotate', '24: rotate']);
  });
});

describe('the roll changes sides', () => {
  expectSaid('roll', [
    [
      'in a scale, up',
      '60:1 62:2 64:3 65:1 67:2 69:3 71:4 72:5',
      0.6,
      ['1: away from the thumb', '3: to the thumb', '4: away from it'],
    ],
    ['and says nothing to a repeated note', '64:3 64:3 64:3 64:3 64:3', 0.2, []],
    ['nor to one whose fingers change a little', '64:4 64:3 64:4 64:3', 0.6, []],
  ]);

  it('is no fresh turn on repeated notes, whatever fingers change', () => {
    for (const fingers of ['3333', '3232', '4321', '5432', '321321']) {
      const sketch = [...fingers].map((finger) => `64:${finger}`).join(' ');
      for (const density of DENSITIES)
        expect(said('roll', sketch, 0.15, density).join()).not.toContain('afresh');
    }
  });

  it('never the same side twice in a row, and in quick scales once in two measures', () => {
    const group = '60:1 62:2 64:3 65:1 67:2 69:3 67:2 65:1 64:3 62:2';
    const told = said('roll', Array(8).fill(group).join(' '), 0.12, 'essential').map(
      (cue) => cue.split(': ') as [string, string],
    );
    expect(told.length).toBeGreaterThan(1);
    for (const [nth, [, text]] of told.entries()) expect(text).not.toBe(told[nth - 1]?.[1]);
    expect(told.length).toBeLessThanOrEqual(2 * Math.ceil(10 / 2));
  });
});

describe('the wrist', () => {
  expectSaid('contour', [
    [
      'rises between thumbs in groups of three',
      '60:1 62:2 64:3 65:1 67:2',
      0.7,
      ['1: wrist rises', '3: wrist level'],
    ],
    ['and of four', '65:1 67:2 69:3 70:4 72:1 74:2', 0.7, ['1: wrist rises', '4: wrist level']],
    ['stays level over one finger', '60:1 62:2 64:1 65:2 67:1', 0.3, []],
    ['where no thumb follows', '60:1 62:2 64:3 65:4 67:5', 0.3, []],
    ['in a trill before a thumb', '64:2 65:3 64:2 65:3 64:2 62:1', 0.1, []],
    ['in a tremolo with the thumb', '60:1 69:5 60:1 69:5 60:1', 0.1, []],
    ['before a rest', '60:1 62:2 64:3 _65:1', 0.3, []],
  ]);

  it('is level again wherever it has been told to rise and a thumb follows', () => {
    const group = '60:1 62:2 64:3 65:1 67:2 69:3 71:4 72:1 71:4 69:3 67:2 65:1 64:3 62:2';
    for (const seconds of [0.12, 0.3, 0.8]) {
      for (const density of DENSITIES) {
        const told = said('contour', `${Array(6).fill(group).join(' ')} 60:1`, seconds, density);
        const texts = told.map((cue) => cue.split(': ')[1]);
        expect(texts.length).toBeGreaterThan(1);
        expect(texts).toEqual(texts.map((_, nth) => (nth % 2 === 0 ? 'wrist rises' : 'wrist level')));
      }
    }
  });
});

describe('the arm is told to travel', () => {
  expectSaid('carry', [
    // The arm sets out when the thumb is left, as early as the keys allow.
    ['before the leap, not on its target', '60:1 64:3 84:1 86:3', 0.5, ['0: then right']],
    ['before the leap down', '84:5 81:3 60:3 62:4', 0.5, ['0: then left']],
    ['at once where the line leaps at once', '60:1 84:3', 0.5, ['0: then right']],
    ['not within five fingers', '60:1 62:2 64:3 65:4 67:5', 0.5, []],
    ['not by less than two white keys', '60:3 62:3', 0.5, []],
  ]);
});
