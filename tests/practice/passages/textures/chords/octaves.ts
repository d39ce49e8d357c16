import { isBlack } from '../../keys.js';
import { buildLine, even } from '../../making/build-line.js';
import { chordOn, degree, drawPace, drawSpan, invert, lowTonic, type Mode } from '../../making/pitches.js';
import { drawRoots } from '../../making/progression.js';
import type { Breach, Played } from '../../played.js';
import { chords, chordsAlike } from '../../rules/chord-rules.js';
import { general } from '../../rules/general-rules.js';
import type { Texture } from '../texture.js';

/**
 * Octaves: as chords along a scale or chromatically, broken, and in basses of ragtime. A teacher asks for 1 and 5 (see
 * `chordBreach`), broken as well: 4 on black keys, for a large hand anywhere; the chords between are held as chords are;
 * an octave or a chord that is repeated keeps its fingers.
 */
export const OCTAVES: Texture = {
  name: 'octaves',
  count: 72,
  blind: 63,
  draw: ({ tonic, hand }, draw) => {
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const kind = draw.pick([
      'scale',
      'broken',
      'broken',
      'ragtime',
      'chromatic',
      'leaping',
      'repeated',
    ] as const);
    const low = lowTonic(tonic, hand) - (kind === 'ragtime' ? 12 : 0);
    const span = drawSpan(draw);
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 2, 1], kind === 'broken' ? 11 : 6, 1);
    const walk = [0, 1, 2, 3, 4, 5, 6, 7, 6, 5, 4, 3, 2, 1, 0];
    const octave = (key: number) => [key, key + 12];
    const keys: (number | number[])[] = {
      scale: () => walk.map((nth) => octave(degree(low, mode, nth))),
      broken: () => walk.slice(0, 8).flatMap((nth) => octave(degree(low, mode, nth))),
      chromatic: () => walk.map((nth) => octave(low + nth)),
      leaping: () => [0, 4, 2, 7, 5, 3, 4, 0].map((nth) => octave(degree(low, mode, nth))),
      repeated: () =>
        [0, 4, 2].flatMap((nth) => Array.from({ length: 4 }, () => octave(degree(low, mode, nth)))),
      ragtime: () =>
        drawRoots(draw).flatMap((root) => {
          const chord = invert(chordOn(low + 12, mode, root, 3), root > 2 ? -1 : 0);
          return [octave(degree(low, mode, root)), chord, octave(degree(low, mode, root - 3)), chord];
        }),
    }[kind]();
    return {
      what: `octaves, ${kind}, ${mode}`,
      span,
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: (played) => [
        ...general(played),
        ...(kind === 'broken' ? broken(played) : chords(played)),
        ...(kind === 'repeated' || kind === 'ragtime' ? chordsAlike(played) : []),
      ],
    };
  },
};

function broken({ moments, span }: Played): Breach[] {
  return moments.flatMap(({ struck: [own], index }): Breach[] => {
    const other = moments[index % 2 === 0 ? index + 1 : index - 1]?.struck[0];
    if (!other || own!.finger === null) return [];
    const outerKey = own!.key > other.key;
    const finger = own!.finger;
    const four = finger === 4 && (span === 'large' || (span === 'medium' && isBlack(own!.key)));
    const right = outerKey ? finger === 5 || four : finger === 1;
    return right
      ? []
      : [{ rule: `a broken octave with ${finger} ${outerKey ? 'outside' : 'inside'}`, at: index }];
  });
}
