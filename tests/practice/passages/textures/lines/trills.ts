import { buildLine, even, type Strike } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general } from '../../rules/general-rules.js';
import type { Texture } from '../texture.js';

/** Pairs that tire in a long trill on neighbouring keys (common practice). */
const WEAK = ['34', '45', '14', '15', '25'];
/** Share of weak alternations that a trill of eight notes or more may have. */
const FEW = 0.25;

/**
 * Trills written out, short and long, with and without a turn at the end, and tremolos. A teacher asks:
 * - a trill of eight notes or more uses 1 2, 1 3 or 2 3, with reason 2 4 or 3 5; a few alternations may be weak ones;
 * - a tremolo keeps one finger on each key.
 */
export const TRILLS: Texture = {
  name: 'trills',
  count: 72,
  blind: 97,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(['major', 'harmonic minor']);
    const step = draw.int(0, 6);
    const kind = (['long', 'short', 'tremolo'] as const)[round % 3]!;
    const { tempo, unit } = drawPace(draw, [1 / 8, 1 / 6, 1 / 4], 13, 6);
    const length = kind === 'short' ? draw.pick([4, 6]) : draw.pick([16, 24, 32]);
    const way = kind === 'tremolo' ? draw.int(2, 7) : 1;
    const trill = Array.from({ length }, (_, nth) => degree(low, mode, step + (nth % 2) * way));
    const turn =
      kind === 'tremolo' || draw.chance(0.4) ? [] : [step - 1, step].map((nth) => degree(low, mode, nth));
    const lead =
      draw.chance(0.5) || kind === 'tremolo' ? [] : [step - 2, step - 1].map((nth) => degree(low, mode, nth));
    const strikes: Strike[] = [
      ...even(lead, 0.5),
      ...even([...trill, ...turn], unit, lead.length / 2),
      {
        at: lead.length / 2 + (trill.length + turn.length) * unit,
        keys: [degree(low, mode, turn.length > 0 ? step + 1 : step)],
      },
    ];
    return {
      what: `${kind} ${kind === 'tremolo' ? `over ${way + 1} degrees` : 'trill'} of ${length} notes`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(hand, strikes, { tempo }),
      judge: (played) => [
        ...general(played),
        ...(kind === 'long' ? weak(played, lead.length, length) : []),
        ...(kind === 'tremolo' ? oneFingerEach(played, length) : []),
      ],
    };
  },
};

function weak({ moments }: Played, from: number, length: number): Breach[] {
  const found = moments.slice(from + 1, from + length).filter(({ struck: [own], index }) => {
    const pair = [own!.finger, moments[index - 1]!.struck[0]!.finger].sort().join('');
    return WEAK.includes(pair);
  });
  return found.length > FEW * (length - 1)
    ? [{ rule: 'a long trill by weak fingers', at: found[0]!.index }]
    : [];
}

function oneFingerEach({ moments }: Played, length: number): Breach[] {
  return moments.slice(2, length).flatMap(({ struck: [own], index }): Breach[] => {
    const before = moments[index - 2]!.struck[0]!;
    return before.finger === own!.finger ? [] : [{ rule: 'a tremolo changes fingers on a key', at: index }];
  });
}
