import { expect, it } from 'vitest';
import { passes } from '#core/fingering/cost/terms/stated/passes.js';
import { type Case, costs } from './counted.js';

/** mm equivalents by movement and by usage: 16 by either where the thumb plays again after one other finger; by usage 5 a pass, too. */
type Mm = readonly [movement: number, usage: number];

it.each<[string, Case, Mm]>([
  ['a major sixth in all', { onsets: [60, 64, 69], digits: '1 2 1' }, [16, 21]],
  ['a fourth in all', { onsets: [60, 61, 65], digits: '1 2 1' }, [16, 21]],
  ['downwards, the last no pass', { onsets: [69, 65, 64], digits: '1 3 1' }, [16, 16]],
  ['a scale', { onsets: [60, 62, 64], digits: '1 2 1' }, [16, 21]],
  ['a tone in all', { onsets: [60, 61, 62], digits: '1 3 1' }, [0, 0]],
  ['a seventh in all: a leap', { onsets: [60, 64, 70], digits: '1 2 1' }, [0, 5]],
  ['there and back', { onsets: [60, 68, 65], digits: '1 4 1' }, [0, 0]],
  ['the thumb on all', { onsets: [60, 64, 67], digits: '1 1 1' }, [0, 0]],
  ['after a breath', { onsets: [60, { keys: [64], phraseStart: true }, 69], digits: '1 2 1' }, [0, 0]],
  ['a chord between', { onsets: [60, [64, 67], 69], digits: '1 23 1' }, [0, 0]],
  ['the thumb behind 3', { onsets: [60, 62, 64, 65], digits: '1 2 3 1' }, [0, 5]],
  ['3 over the thumb', { onsets: [67, 65, 64, 62], digits: '3 2 1 3' }, [0, 5]],
  ['a semitone after a tone', { onsets: [62, 64, 65], digits: '2 3 1' }, [0, 5]],
  ['a tone after a semitone', { onsets: [64, 65, 67], digits: '2 3 1' }, [0, 5]],
  ['among semitones', { onsets: [63, 64, 65], digits: '2 3 1' }, [0, 0]],
  ['among semitones, there and back', { onsets: [64, 65, 64], digits: '1 2 1' }, [0, 0]],
  ['over the thumb among semitones', { onsets: [65, 64, 63], digits: '2 1 3' }, [0, 0]],
  ['eleven semitones', { onsets: [60, 62, 73], digits: '1 3 1' }, [0, 5]],
  ['an octave: a leap', { onsets: [60, 62, 74], digits: '1 3 1' }, [0, 0]],
  ['the same key', { onsets: [60, 62, 62], digits: '1 2 1' }, [0, 0]],
  ['no pass', { onsets: [60, 62, 64], digits: '3 2 4' }, [0, 0]],
  ['beside a held key', { onsets: [{ keys: [52], holds: 3 }, 60, 62, 64], digits: '1 12 13 11' }, [0, 0]],
])('passes of the thumb: %s', (_, own, [movement, usage]) => {
  for (const hand of ['right', 'left'] as const) {
    expect(costs(passes, { ...own, hand }, 'movement')).toBe(movement);
    expect(costs(passes, { ...own, hand })).toBe(usage);
  }
});
