import { buildLine, even } from '../../making/build-line.js';
import {
  chordOn,
  drawPace,
  drawSpan,
  invert,
  lowTonic,
  type Mode,
  SEVENTHS,
  TRIADS,
} from '../../making/pitches.js';
import { drawRoots, nearestChords } from '../../making/progression.js';
import type { Played } from '../../played.js';
import { chords, chordsAlike } from '../../rules/chord-rules.js';
import { general } from '../../rules/general-rules.js';
import type { Texture } from '../texture.js';

const held = (played: Played) => [...general(played), ...chords(played), ...chordsAlike(played)];

/**
 * Chains of inversions, up and down: triads and sevenths of every quality. A teacher asks for 1 and 5 outside and for the
 * same digits whenever a chord comes back (see `chordBreach`).
 */
function chains(qualities: Readonly<Record<string, readonly number[]>>): Texture['draw'] {
  const names = Object.keys(qualities);
  const tones = qualities[names[0]!]!.length;
  return ({ tonic, hand, round }, draw) => {
    const name = names[(round + draw.int(0, names.length - 1)) % names.length]!;
    const low = lowTonic(tonic, hand);
    const root = qualities[name]!.map((tone) => low + tone);
    const span = drawSpan(draw);
    const { tempo, unit } = drawPace(draw, [1 / 2, 1, 2], 6, 0.5);
    const kind = round % 3;
    const turns = Array.from({ length: tones + 1 }, (_, nth) => nth);
    const inversions =
      kind === 0 ? [...turns, ...turns.toReversed().slice(1)] : kind === 1 ? [draw.int(0, tones - 1)] : turns;
    const keys =
      kind === 2 && draw.chance(0.6)
        ? parallel(low, draw.pick(['major', 'harmonic minor']), tones, draw.int(0, tones - 1))
        : inversions.map((times) => invert(root, times));
    const what = `${name} ${tones === 3 ? 'triads' : 'sevenths'}, ${['chain of inversions up and down', 'one chord', 'chain or parallel chords'][kind]}`;
    return { what, span, tempo, line: buildLine(hand, even(keys, unit), { tempo }), judge: held };
  };
}

function parallel(low: number, mode: Mode, tones: number, inversion: number): number[][] {
  return [0, 1, 2, 3, 2, 1, 0].map((root) => chordOn(low, mode, root, tones, inversion));
}

export const TRIADS_IN_BLOCK: Texture = { name: 'triads', count: 96, blind: 31, draw: chains(TRIADS) };
export const SEVENTHS_IN_BLOCK: Texture = {
  name: 'seventh chords',
  count: 96,
  blind: 50,
  draw: chains(SEVENTHS),
};

/** Chords of two to four keys repeated, one or two in turn: every repetition is held alike, and as chords are. */
export const REPEATED_CHORDS: Texture = {
  name: 'repeated chords',
  count: 72,
  blind: 33,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const tones = [3, draw.pick([2, 4]), draw.pick([3, 4])][round % 3]!;
    const inversion = draw.int(0, 2);
    const roots = draw.pick([[0], [0, 3], [0, 4, 0], [0, 3, 4, 0]]);
    const close = nearestChords(low, mode, roots, inversion, () => Math.max(3, tones));
    const chordKeys = close.map((keys) => (tones === 2 ? [keys[0]!, keys[draw.int(1, 2)]!] : keys));
    const times = draw.pick([3, 4, 6, 8]);
    const { tempo, unit } = drawPace(draw, [1 / 3, 1 / 2, 1], 7, 0.8);
    const keys = chordKeys.flatMap((own) => Array.from({ length: times }, () => own));
    return {
      what: `chords of ${tones}, each ${times} times`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: held,
    };
  },
};

/** Cadences in close position: triads and a seventh or a three-note seventh on the dominant. */
export const CADENCES: Texture = {
  name: 'cadences',
  count: 72,
  blind: 47,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const roots = drawRoots(draw);
    const inversion = round % 3;
    const dominant = draw.pick(['triad', 'seventh', 'seventh without its fifth']);
    const close = nearestChords(low, mode, roots, inversion, (root) =>
      root === 4 && dominant !== 'triad' ? 4 : 3,
    );
    const keys = close.map((own, nth) => {
      if (roots[nth] !== 4 || dominant !== 'seventh without its fifth') return own;
      const fifth = chordOn(low, mode, 4, 3)[2]! % 12;
      return own.filter((key) => key % 12 !== fifth);
    });
    const { tempo, unit } = drawPace(draw, [1 / 2, 1, 2], 4, 0.5);
    return {
      what: `cadence ${roots.map((root) => ['I', 'II', 'III', 'IV', 'V', 'VI'][root]).join(' ')}, dominant as a ${dominant}, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: held,
    };
  },
};
