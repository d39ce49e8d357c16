import { isBlack } from '../../keys.js';
import { buildLine, even } from '../../making/build-line.js';
import { drawPace, drawSpan, invert, lowTonic, SEVENTHS, TRIADS } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general } from '../../rules/general-rules.js';
import { legs, octavesAlike, turnsOfThumb, wayBackAlike } from '../../rules/run-rules.js';
import type { Texture } from '../texture.js';

/**
 * Arpeggios of triads and sevenths over one to four octaves, from any tone. A teacher asks, whatever the group:
 * - one hand position an octave: the thumb passes at most once an octave;
 * - no thumb on a black key where the chord has a white one, unless an octave is one hand position;
 * - every octave has the same digits apart from the notes before the first thumb and the outermost note, and the way back those of the way there;
 * - within an octave fingers that reach: see the rules of every texture.
 */
export const ARPEGGIOS: Texture = {
  name: 'arpeggios',
  count: 96,
  blind: 75,
  draw: ({ tonic, hand, round }, draw) => {
    const sevenths = round % 2 === 1;
    const qualities: Readonly<Record<string, readonly number[]>> = sevenths ? SEVENTHS : TRIADS;
    const quality = draw.pick(
      sevenths ? Object.keys(SEVENTHS) : ['major', 'major', 'minor', 'minor', 'diminished', 'augmented'],
    );
    const octaves = draw.pick([1, 2, 2, 3, 4]);
    const low = lowTonic(tonic, hand) - (octaves > 2 ? 12 : 0);
    const inversion = draw.pick([0, 0, 0, 1, 2]);
    const one = invert(
      qualities[quality]!.map((tone) => low + tone),
      inversion,
    );
    const up = Array.from({ length: octaves }, (_, nth) => one.map((key) => key + 12 * nth)).flat();
    up.push(one[0]! + 12 * octaves);
    const kind = draw.pick(['up', 'down', 'up and down', 'up and down'] as const);
    const keys =
      kind === 'up' ? up : kind === 'down' ? up.toReversed() : [...up, ...up.toReversed().slice(1)];
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3, 1 / 2], 12, 2);
    return {
      what: `${quality} ${sevenths ? 'seventh' : 'triad'}, ${octaves} octaves ${kind}, inversion ${inversion}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, even(keys, unit), { tempo }),
      judge: (played) => judgeArpeggio(played, octaves),
    };
  },
};

export function judgeArpeggio(played: Played, octaves: number): Breach[] {
  const white = played.moments.some(({ struck: [own] }) => !isBlack(own!.key));
  return [
    ...general(played),
    ...(white && !isOnePosition(played) ? thumbOnBlack(played) : []),
    ...passes(played, octaves * legs(played).length),
    ...octavesAlike(played, 1),
    ...wayBackAlike(played, 1),
  ];
}

/** Without a pass of the thumb the hand stays in one place and falls on the keys as they come. */
function isOnePosition(played: Played): boolean {
  return turnsOfThumb(played).length === 0;
}

export function thumbOnBlack({ moments }: Played): Breach[] {
  return moments
    .filter(({ struck: [own] }) => own!.finger === 1 && isBlack(own!.key))
    .map(({ index }) => ({ rule: 'the thumb on a black key though a white one is there', at: index }));
}

export function passes(played: Played, most: number): Breach[] {
  const found = turnsOfThumb(played);
  return found.length > most
    ? [{ rule: 'the thumb passes more often than needful', at: found[most]!.index }]
    : [];
}
