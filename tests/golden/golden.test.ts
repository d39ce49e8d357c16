import { annotate } from '@handline/core';
import { expect, it } from 'vitest';
import { attributes, note, onePart, rest } from '../musicxml/read-source.js';
import { CHORDS } from './chords.js';
import { SINGLE_NOTES } from './single-notes.js';
import type { Tune } from './tune.js';

const SIGNS: Readonly<Record<string, string>> = {
  '~': '<arpeggiate/>',
  '&': '<ornaments><trill-mark/></ornaments>',
};

/** The notes of one word of a sketch, and how long it lasts. */
function event(word: string, voice: string, staff: number): { xml: string; eighths: number } {
  const [, sign = '', names = '', length = '1'] = /^([~'&]?)([^:]+):?(\d*)$/.exec(word) ?? [];
  const eighths = sign === "'" ? 0 : Number(length || 1);
  if (names === 'r') return { xml: rest(eighths, voice, staff), eighths };
  const xml = names
    .split('+')
    .map((name, nth) => {
      const lead = `${sign === "'" ? '<grace/>' : ''}${nth > 0 ? '<chord/>' : ''}`;
      const sketch = { voice, staff, lead, notations: SIGNS[sign] ?? '' };
      return note(name, sign === "'" ? undefined : eighths, sketch);
    })
    .join('');
  return { xml, eighths };
}

function scoreOf({ hand, notes, tempo = 100, repeated }: Tune): string {
  const staff = hand === 'right' ? 1 : 2;
  const voices = notes.map((voice) => voice.split('|').map((measure) => measure.trim().split(' ')));
  const measures = voices[0]!.map((_, at) =>
    voices
      .map((voice, nth) => {
        const events = voice[at]!.map((word) => event(word, String(nth + 1 + 4 * (staff - 1)), staff));
        const back = nth === 0 ? 0 : events.reduce((sum, { eighths }) => sum + eighths, 0);
        const backup = back === 0 ? '' : `<backup><duration>${back}</duration></backup>`;
        return backup + events.map(({ xml }) => xml).join('');
      })
      .join(''),
  );
  const end = repeated ? '<barline location="right"><repeat direction="backward"/></barline>' : '';
  return onePart(
    measures.map((own, at) => {
      const start = at === 0 ? `${attributes(2, 2)}<sound tempo="${tempo}"/>` : '';
      return start + own + (at === measures.length - 1 ? end : '');
    }),
  );
}

function digitsOf(tune: Tune): string {
  const lines = annotate(scoreOf(tune)).report.lines.filter(({ notes }) => notes > 0);
  expect(lines.map(({ hand }) => hand)).toEqual([tune.hand]);
  return lines[0]!.slices.map(({ fingers }) => fingers.map((finger) => finger ?? '-').join('')).join(' ');
}

const tunes = [...SINGLE_NOTES, ...CHORDS];

it.each(tunes.map((tune) => [tune.texture, tune.hand, tune.why, tune] as const))(
  '%s, %s hand: %s',
  (_, __, ___, tune) => {
    const printed = digitsOf(tune);
    const { digits, aim } = tune;
    if (aim === undefined) return expect(digits.split(' or ')).toContain(printed);
    // Not as a teacher has it, which is known: it fails as soon as it is mended, or is wrong in another way.
    expect(printed, `known: ${aim.worse}; aimed at: ${digits}`).toBe(aim.printed);
    expect(digits).not.toContain(printed);
  },
);

it('as a teacher fingers them, but for known aims', () => {
  const reached = tunes.filter(({ aim }) => aim === undefined).length;
  console.log(`golden: ${reached} of ${tunes.length} tunes as fingered by hand`);
  expect(reached / tunes.length).toBeGreaterThan(0.75);
});
