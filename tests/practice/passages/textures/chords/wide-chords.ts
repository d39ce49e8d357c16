import { buildLine, even } from '../../making/build-line.js';
import { chordOn, degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import type { Span } from '../../passage.js';
import type { Breach, Played } from '../../played.js';
import { chords } from '../../rules/chord-rules.js';
import { general } from '../../rules/general-rules.js';
import { position } from '../../rules/position-rules.js';
import type { Texture } from '../texture.js';

/** Widest chord in semitones that a hand holds without rolling it: small a ninth, large a tenth (from memory). */
const HELD: Readonly<Record<Span, number>> = { small: 13, medium: 15, large: 16 };

/**
 * Tenths: struck by a large hand, rolled by any, and broken with a key between, as in a stride bass. A teacher
 * asks for 1 and 5 outside in every one, and in broken ones for fingers in the order of the keys.
 */
export const TENTHS: Texture = {
  name: 'tenths',
  count: 72,
  blind: 88,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand) - (hand === 'left' ? 7 : 0);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const kind = round % 3;
    const span = kind === 0 ? 'large' : drawSpan(draw);
    const roots = draw.pick([
      [0, 1, 2, 3, 4],
      [0, 3, 4, 0],
      [0, 5, 1, 4, 0],
      [4, 3, 2, 1, 0],
    ]);
    const { tempo, unit } = drawPace(draw, [1 / 2, 1, 2], kind === 1 ? 5 : 3, 0.5);
    const outer = (root: number) => [degree(low, mode, root), degree(low, mode, root + 9)];
    const strikes = even(
      kind === 1
        ? roots.flatMap((root) => [0, 4, 9, 4].map((step) => degree(low, mode, root + step)))
        : roots.map(outer),
      unit,
    ).map((strike) => {
      const width = strike.keys.at(-1)! - strike.keys[0]!;
      return { ...strike, rolled: width > HELD[span] || (kind === 2 && width > 12) };
    });
    return {
      what: `tenths, ${['struck', 'broken', 'rolled'][kind]}, ${mode}`,
      span,
      tempo,
      line: buildLine(hand, strikes, { tempo }),
      judge: (played) => [
        ...general(played),
        ...(kind === 1
          ? roots.flatMap((_, nth) => brokenTenth(played, 4 * nth))
          : chords(played).filter(isNoStrain)),
      ],
    };
  },
};

function brokenTenth(played: Played, from: number): Breach[] {
  const fingers = played.moments.slice(from, from + 3).map(({ struck: [own] }) => own!.finger);
  const outside = [fingers[0], fingers[2]].sort().join('');
  return [
    ...position(played, from, from + 3),
    ...(['15', '14', '25'].includes(outside)
      ? []
      : [{ rule: `a broken tenth by ${fingers.join(' ')}`, at: from }]),
  ];
}

function isNoStrain({ rule }: Breach): boolean {
  return !rule.includes('strained');
}

/** Semitones above the root of chords that are rolled, none with more than five keys. */
const SPREAD = [
  [0, 7, 16],
  [0, 7, 15],
  [0, 7, 12, 16],
  [0, 4, 7, 12],
  [0, 3, 7, 12],
  [0, 7, 10, 16],
  [0, 4, 10, 14],
  [0, 12, 16],
] as const;

/**
 * Rolled chords, close and spread, up to a tenth. A teacher asks for a finger on every key, in the order of the keys, and
 * for 1 and 5 outside from an octave on; no strain, since the keys need not be down together.
 */
export const ROLLED: Texture = {
  name: 'rolled chords',
  count: 72,
  blind: 90,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand) - (hand === 'left' ? 5 : 0);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const shape = draw.pick(SPREAD);
    const roots = draw.pick([[0], [0, 3, 0], [0, 4, 0], [0, 3, 4, 0]]);
    const keys = roots.map((root) =>
      round % 3 === 0
        ? chordOn(low, mode, root, draw.pick([3, 4]))
        : shape.map((step) => degree(low, mode, root) + step),
    );
    const { tempo, unit } = drawPace(draw, [1, 2], 2.5, 0.4);
    const strikes = even(keys, unit).map((strike) => ({ ...strike, rolled: true }));
    return {
      what: `rolled chords, ${round % 3 === 0 ? 'close' : `spread ${shape.join(' ')}`}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, strikes, { tempo }),
      judge: (played) => [...general(played), ...chords(played).filter(isNoStrain)],
    };
  },
};
