import { buildLine, even } from '../../making/build-line.js';
import { chordOn, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import { drawRoots, nearestChords } from '../../making/progression.js';
import type { Breach, Played } from '../../played.js';
import { chordBreach } from '../../rules/chord-rules.js';
import { general } from '../../rules/general-rules.js';
import type { Texture } from '../texture.js';

/**
 * Waltz basses in the left hand: a low note and two chords of two or three keys. A teacher asks that a chord has fingers in
 * order and without strain, that both chords of a bar are alike, and that the low note has none of the thumb's side: 3, 4
 * or 5.
 */
export const WALTZ: Texture = {
  name: 'waltz basses',
  count: 72,
  blind: 100,
  draw: ({ tonic, round }, draw) => {
    const low = lowTonic(tonic, 'left');
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const tones = round % 2 === 0 ? 3 : 2;
    const roots = drawRoots(draw);
    const chords = nearestChords(low + 5, mode, roots, draw.int(0, 2), () => 3).map((own) =>
      tones === 3 ? own : own.slice(1),
    );
    const bars = roots.flatMap((root, nth) => [chordOn(low - 12, mode, root, 1), chords[nth]!, chords[nth]!]);
    const { tempo, unit } = drawPace(draw, [1, 1 / 2], 4, 0.9);
    return {
      what: `waltz bass, chords of ${tones}, ${mode}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine('left', even(bars, unit), { tempo, bar: 3 * unit }),
      judge: (played) => [...general(played), ...bass(played)],
    };
  },
};

function bass({ moments, span }: Played): Breach[] {
  return moments.flatMap(({ struck, index }): Breach[] => {
    if (index % 3 === 0) {
      const finger = struck[0]!.finger!;
      return finger < 3 ? [{ rule: `a low note by ${finger}`, at: index }] : [];
    }
    const rule = chordBreach(struck, span);
    if (rule && !rule.startsWith('a triad')) return [{ rule, at: index }];
    const digits = (at: number) => moments[at]!.struck.map(({ finger }) => finger).join(' ');
    return index % 3 === 2 && digits(index) !== digits(index - 1)
      ? [{ rule: 'the chords of a bar are unlike', at: index }]
      : [];
  });
}
