import { buildLine, even } from '../../making/build-line.js';
import { degree, drawPace, drawSpan, lowTonic, MODES, type Mode } from '../../making/pitches.js';
import type { Breach, Played } from '../../played.js';
import { general, isCrossed, steps } from '../../rules/general-rules.js';
import { turnsOfThumb } from '../../rules/run-rules.js';
import type { Texture } from '../texture.js';

/**
 * Fragments of scales: every degree to start on, three to nine notes, up, down or turning. A teacher asks:
 * - the thumb passes at most once in six keys and twice in nine, each way;
 * - neighbouring notes of a way have neighbouring fingers unless the thumb passes: no finger is left out for nothing.
 */
export const FRAGMENTS: Texture = {
  name: 'fragments',
  count: 168,
  blind: 98,
  draw: ({ tonic, hand, round }, draw) => {
    const low = lowTonic(tonic, hand);
    const mode: Mode = draw.pick(Object.keys(MODES) as Mode[]);
    const start = round % 7;
    const length = draw.int(3, 9);
    const up = Array.from({ length }, (_, nth) => start + nth);
    const kind = draw.pick(['up', 'down', 'turning up', 'turning down'] as const);
    const [there, back] =
      kind === 'up' || kind === 'turning up' ? [up, up.toReversed()] : [up.toReversed(), up];
    const walk = kind.startsWith('turning') ? [...there, ...back.slice(1)] : there;
    const { tempo, unit } = drawPace(draw, [1 / 4, 1 / 3, 1 / 2], 12, 2);
    const ways = kind.startsWith('turning') ? 2 : 1;
    return {
      what: `${length} notes of a ${mode} scale from degree ${start + 1} ${kind}`,
      span: drawSpan(draw),
      tempo,
      line: buildLine(
        hand,
        even(
          walk.map((nth) => degree(low, mode, nth)),
          unit,
        ),
        { tempo },
      ),
      judge: (played) => [
        ...general(played),
        ...passes(played, ways * (length <= 6 ? 1 : 2)),
        ...leftOut(played),
      ],
    };
  },
};

function passes(played: Played, most: number): Breach[] {
  const turns = turnsOfThumb(played);
  return turns.length > most
    ? [{ rule: 'the thumb passes more often than needful', at: turns[most]!.index }]
    : [];
}

function leftOut(played: Played): Breach[] {
  return steps(played)
    .filter((step) => {
      const way = Math.abs(step.to.key - step.from.key);
      return way <= 2 && !isCrossed(step) && Math.abs(step.to.finger - step.from.finger) > 1;
    })
    .map(({ at }) => ({ rule: 'a finger is left out on neighbouring keys', at }));
}
