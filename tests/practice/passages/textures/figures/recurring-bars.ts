import { buildLine, even } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import { nearestChords } from '../../making/progression.js';
import { general } from '../../rules/general-rules.js';
import { barsAlike, position } from '../../rules/position-rules.js';
import type { Texture } from '../texture.js';

/** Orders of the tones of a chord, counted from the lowest, by number of tones. */
const FIGURES: Readonly<Record<3 | 4, readonly (readonly number[])[]>> = {
  3: [
    [0, 1, 2, 1, 0, 1, 2, 1],
    [0, 2, 1, 2, 0, 2, 1, 2],
    [0, 1, 2, 0, 1, 2],
    [2, 1, 0, 1, 2, 1, 0, 1],
    [0, 1, 2, 0, 1, 2, 0, 1],
    [2, 0, 1, 0, 2, 0, 1, 0],
  ],
  4: [
    [0, 1, 2, 3, 2, 1],
    [0, 1, 2, 3, 0, 1, 2, 3],
    [0, 2, 1, 3, 2, 1],
    [0, 1, 2, 1, 3, 1, 2, 1],
    [3, 2, 1, 2, 0, 2, 1, 2],
    [0, 1, 2, 3, 1, 2, 3, 2],
  ],
};

/** Orders of the notes of a five-finger position, from its lowest. */
const TURNS = [
  [0, 2, 1, 2, 0, 2, 1, 2],
  [4, 2, 3, 2, 4, 2, 1, 2],
  [0, 1, 2, 1, 0, 4, 2, 1],
  [4, 3, 2, 1, 2, 3],
  [0, 4, 3, 4, 1, 4, 3, 4],
] as const;

/** A dozen harmonies of a prelude, some of which return. */
const HARMONIES = [
  [0, 1, 4, 0, 5, 1, 4, 0, 3, 1, 4, 0],
  [0, 3, 4, 0, 5, 3, 1, 4, 0, 3, 4, 0],
  [0, 5, 1, 4, 0, 5, 3, 4, 5, 1, 4, 0],
] as const;
const RETURNS = [
  [0, 0, 4, 4, 0, 0, 3, 3, 0, 0, 4, 4, 0, 4, 0, 0],
  [0, 4, 0, 4, 0, 3, 0, 4, 0, 4, 0, 4, 0, 3, 4, 0],
] as const;

/**
 * Preludes of one figure. A teacher asks, beside the rules of every texture:
 * - equal bars have equal digits, 98 % of them;
 * - within a figure that lies under the hand, a key keeps its finger and fingers ascend with the keys; its last note may
 *   already belong to the next place.
 */
export const RECURRING_BARS: Texture = {
  name: 'recurring bars',
  count: 72,
  blind: 21,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const span = drawSpan(draw);
    const tones = draw.pick([3, 4] as const);
    let what: string;
    let bars: number[][];
    if (round === 0) {
      const figure = draw.pick(FIGURES[tones]);
      const roots = draw.pick(HARMONIES);
      const chords = nearestChords(low, mode, roots, draw.int(0, 2), (root) =>
        tones === 4 || root === 4 ? tones : 3,
      );
      bars = chords.flatMap((keys) => [figure, figure].map((own) => own.map((tone) => keys[tone]!)));
      what = `prelude of 24 half-bars, every half-bar twice, ${mode}`;
    } else if (round === 1) {
      const figure = draw.pick(FIGURES[tones]);
      const roots = draw.pick(RETURNS);
      const inversion = draw.int(0, 2);
      const chords = new Map(
        nearestChords(low, mode, [...new Set<number>(roots)], inversion, () => tones).map((keys, nth) => [
          [...new Set<number>(roots)][nth]!,
          keys,
        ]),
      );
      bars = roots.map((root) => figure.map((tone) => chords.get(root)![tone]!));
      what = `bars that return, ${mode}`;
    } else {
      const figure = draw.pick(TURNS);
      const start = draw.int(0, 4);
      const moves = draw.pick([[0], [0, 1], [0, -1, 0, 1], [0, 0, 1, 1, 2, 2, 1, 1]] as const);
      bars = Array.from({ length: 16 }, (_, nth) =>
        figure.map((step) => degree(low, mode, start + moves[nth % moves.length]! + step)),
      );
      what = `one figure of a five-finger position, ${mode}`;
    }
    const size = bars[0]!.length;
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3, 1 / 2], 12, 2);
    const line = buildLine(hand, even(bars.flat(), unit), { tempo, bar: size * unit });
    const starts = bars.map((_, nth) => nth * size);
    return {
      what,
      span,
      tempo,
      line,
      judge: (played) => [
        ...general(played),
        ...barsAlike(played, starts),
        ...starts.flatMap((from, nth) => {
          const keys = bars[nth]!;
          return Math.max(...keys) - Math.min(...keys) <= 12 ? position(played, from, from + size - 1) : [];
        }),
      ],
    };
  },
};
