import { expect, it } from 'vitest';
import { change } from '#core/fingering/cost/terms/stated/change.js';
import { endurance } from '#core/fingering/cost/terms/stated/endurance.js';
import { leap } from '#core/fingering/cost/terms/stated/leap.js';
import { repetition } from '#core/fingering/cost/terms/stated/repetition.js';
import { type Case, costs, type Onset } from './counted.js';

const at = (seconds: number, ...keys: number[]): Onset => ({ keys, seconds });

it.each<[string, Case, number]>([
  // One finger repeats 4 a second at ease; each more costs 17 mm: 12 a second 136, 8.5 76.5, 6 34, 4.5 8.5.
  ['0.1 s', { onsets: [60, at(0.1, 60)], digits: '2 2' }, 136],
  ['1/7 s', { onsets: [60, at(1 / 7, 60)], digits: '2 2' }, 76.5],
  ['0.2 s', { onsets: [60, at(0.2, 60)], digits: '2 2' }, 34],
  ['0.25 s', { onsets: [60, at(0.25, 60)], digits: '2 2' }, 8.5],
  ['0.3 s', { onsets: [60, at(0.3, 60)], digits: '2 2' }, 0],
  ['another finger', { onsets: [60, at(0.1, 60)], digits: '2 3' }, 0],
  ['another key', { onsets: [60, at(0.1, 62)], digits: '2 2' }, 0],
  ['chords', { onsets: [[60, 64], at(0.1, 60, 64)], digits: '13 13' }, 0],
  ['beside a held key', { onsets: [{ keys: [52], holds: 2 }, 60, at(0.1, 60)], digits: '1 13 13' }, 136],
  ['a new phrase', { onsets: [60, { keys: [60], seconds: 0.25, phraseStart: true }], digits: '2 2' }, 0],
  [
    'a new phrase at once',
    { onsets: [60, { keys: [60], seconds: 0.1, phraseStart: true }], digits: '2 2' },
    136,
  ],
])('repetition: %s', (_, own, mm) => {
  for (const by of ['usage', 'movement'] as const) expect(costs(repetition, own, by)).toBe(mm);
});

const FAST = at(0.1, 60);
const ON_THE_BEAT: Onset = { keys: [60], seconds: 0.1, onBeat: true };

it.each<[string, Case, number]>([
  ['towards the thumb', { onsets: [60, FAST, FAST], digits: '4 3 2' }, 0],
  ['away from it', { onsets: [60, FAST, FAST], digits: '3 2 3' }, 100],
  ['away from it by three fingers', { onsets: [60, FAST, at(0.25, 60)], digits: '2 1 4' }, 100],
  ['away from it at the second of two strokes', { onsets: [60, FAST], digits: '2 3' }, 0],
  ['from the thumb to 5', { onsets: [60, FAST, FAST], digits: '2 1 5' }, 160],
  ['from the thumb to 5 at the second of two strokes', { onsets: [60, FAST], digits: '1 5' }, 60],
  ['from 5 to the thumb', { onsets: [60, FAST, FAST], digits: '4 5 1' }, 60],
  ['on the beat', { onsets: [60, FAST, ON_THE_BEAT], digits: '3 2 3' }, 0],
  ['to 5 on the beat', { onsets: [60, FAST, ON_THE_BEAT], digits: '2 1 5' }, 60],
  ['a change after none', { onsets: [60, FAST, FAST], digits: '3 3 2' }, 40],
  ['none after a change', { onsets: [60, FAST, FAST], digits: '3 2 2' }, 40],
  ['none after a change, on the beat', { onsets: [60, FAST, ON_THE_BEAT], digits: '3 2 2' }, 40],
  ['none after a change to the key', { onsets: [62, FAST, FAST, FAST], digits: '3 2 2 2' }, 0],
  ['where there is time', { onsets: [60, at(0.3, 60), at(0.3, 60)], digits: '3 2 2' }, 0],
  [
    'a new phrase',
    { onsets: [60, FAST, { keys: [60], seconds: 0.25, phraseStart: true }], digits: '3 2 3' },
    0,
  ],
  ['on another key', { onsets: [60, FAST, at(0.1, 62)], digits: '3 2 2' }, 0],
  ['one finger', { onsets: [60, FAST, FAST], digits: '2 2 2' }, 0],
  ['chords', { onsets: [[60, 64], at(0.1, 60, 64), at(0.1, 60, 64)], digits: '13 13 24' }, 0],
  ['beside a held key', { onsets: [{ keys: [52], holds: 3 }, 60, FAST, FAST], digits: '1 14 13 14' }, 100],
  [
    'the same, now and then',
    { onsets: [{ keys: [52], holds: 3 }, 60, FAST, FAST], digits: '1 14 13 13' },
    40,
  ],
])('finger change: %s', (_, own, mm) => {
  for (const by of ['usage', 'movement'] as const) expect(costs(change, own, by)).toBe(mm);
});

/** So many notes of a trill; what the last one owes. */
const trill = (length: number, fingers: string, seconds = 0.1, way = 2): Case => ({
  onsets: Array.from({ length }, (_, nth) => at(seconds, 60 + way * (nth % 2))),
  digits: Array.from({ length }, (_, nth) => fingers[nth % 2]).join(' '),
});

it.each<[string, Case, number]>([
  ['eight notes by 1 3', trill(8, '13'), 0],
  ['eight notes by 2 3', trill(8, '23'), 0],
  ['eight notes by 1 2', trill(8, '12'), 2],
  ['eight notes by 2 4', trill(8, '24'), 4],
  ['eight notes by 1 4', trill(8, '14'), 6],
  ['eight notes by 3 5', trill(8, '35'), 7],
  ['eight notes by 2 5', trill(8, '25'), 10],
  ['eight notes by 1 5', trill(8, '15'), 12],
  ['eight notes by 3 4', trill(8, '34'), 14],
  ['eight notes by 4 5', trill(8, '45'), 24],
  ['eight notes by one finger', trill(8, '22'), 40],
  ['a short one', trill(7, '34'), 4.2],
  ['five notes', trill(5, '34'), 4.2],
  ['four notes', trill(4, '34'), 0],
  ['a slow one', trill(8, '34', 0.25), 0],
  ['at its slowest', trill(8, '34', 0.2), 14],
  // Up to the trill and after it the hand does something else.
  ['the note that leads to it', { onsets: [at(0.1, 48), ...trill(8, '34').onsets], digits: '4 3' }, 0],
  [
    'the note that follows it',
    { onsets: [...trill(8, '34').onsets, at(0.1, 48)], digits: `${trill(8, '34').digits} 3` },
    0,
  ],
  ['over a third', trill(8, '34', 0.1, 4), 14],
  ['a tremolo over a fourth', trill(8, '34', 0.1, 5), 0],
])('endurance: %s', (_, own, mm) => {
  for (const hand of ['right', 'left'] as const) {
    for (const by of ['usage', 'movement'] as const) expect(costs(endurance, { ...own, hand }, by)).toBe(mm);
  }
});

it.each<[string, Case, number]>([
  // The bass of a waltz, of a left hand: seen as a right hand's, the single key lies high; 5 takes it, every other pays 8 a finger.
  ['to the chord below, by 5', { onsets: [84, [67, 72, 76]], digits: '5 125' }, 0],
  ['to the chord below, by 4', { onsets: [84, [67, 72, 76]], digits: '4 125' }, 8],
  ['to the chord below, by 2', { onsets: [84, [67, 72, 76]], digits: '2 125' }, 24],
  ['from the chord below, by 3', { onsets: [[67, 72, 76], 84], digits: '125 3' }, 16],
  ['to the chord above, by the thumb', { onsets: [48, [60, 64, 67]], digits: '1 135' }, 0],
  ['to the chord above, by 2', { onsets: [48, [60, 64, 67]], digits: '2 135' }, 8],
  ['seven semitones', { onsets: [60, [67, 71]], digits: '3 12' }, 0],
  ['eight semitones', { onsets: [60, [68, 71]], digits: '3 12' }, 16],
  ['two single keys', { onsets: [48, 72], digits: '3 3' }, 0],
  [
    'two chords',
    {
      onsets: [
        [36, 48],
        [60, 64],
      ],
      digits: '13 13',
    },
    0,
  ],
])('leap: %s', (_, own, mm) => {
  for (const by of ['usage', 'movement'] as const) expect(costs(leap, own, by)).toBe(mm);
});
