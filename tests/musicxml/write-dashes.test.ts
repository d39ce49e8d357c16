import { describe, expect, it } from 'vitest';
import type { CueMark } from '#core/musicxml/marks/edit.js';
import { toolkit } from '../page/drawn.js';
import { note, score } from './write-score.js';
import { clear, mark } from './write-source.js';

const cue = (at: number, dashesTo: number, text = 'in'): CueMark => ({
  part: 0,
  note: at,
  text,
  placement: 'above',
  dashesTo,
});
const notes = (count: number, of: Parameters<typeof note>[0] = {}) =>
  Array.from({ length: count }, () => note(of));
const BACKUP = '      <backup><duration>8</duration></backup>';
const OWN = (type: string, number: number) =>
  `      <direction><direction-type><dashes number="${number}" type="${type}"/></direction-type><staff>1</staff></direction>`;

/** The measure with words as they are, dashes as `start-6`, notes as `n`. */
function outline(text: string): string[] {
  const [, measure = ''] = /<\/attributes>([\s\S]*)<\/measure>/.exec(text) ?? [];
  const found = measure.matchAll(
    /<words[^>]*>([^<]*)|<dashes (?:number="\d" )?type="(\w+)"(?: number="(\d)")?\/>|<(note|backup)\b/g,
  );
  return Array.from(
    found,
    ([, words, type, number, name]) => words ?? (type ? `${type}-${number ?? 'own'}` : name!),
  );
}

/** What a program keeps: no instructions, and numbers of its own. */
function saved(text: string): string {
  return text
    .replaceAll(/<\?handline.*?\?>/g, '')
    .replaceAll('number="6"', 'number="3"')
    .replaceAll('number="5"', 'number="4"');
}

describe('dashes behind a cue', () => {
  it('begin right behind its words and end before the note that it serves', () => {
    const text = mark(score(notes(5).join('\n')), { cues: [cue(1, 3)] });
    expect(outline(text)).toEqual(['note', 'in', 'start-6', 'note', 'note', 'stop-6', 'note', 'note']);
    expect(text).toContain(
      '<?handline dashes stop-6?><direction placement="above"><direction-type><dashes type="stop" number="6"/></direction-type><voice>1</voice><staff>1</staff></direction>',
    );
  });

  it('end at the barline, behind the last note of their voice, where the note that they serve lies beyond it', () => {
    const second = `    </measure>\n    <measure number="2">\n${notes(2).join('\n')}`;
    const measure = [...notes(3), BACKUP, ...notes(3, { staff: 2, voice: '5' }), second].join('\n');
    const source = score(measure);
    const right = mark(source, { cues: [cue(0, 6)] });
    expect(outline(right).slice(0, 8)).toEqual([
      'in',
      'start-6',
      'note',
      'note',
      'note',
      'stop-6',
      'backup',
      'note',
    ]);
    expect(clear(right).text).toBe(source);
    // Programs put the end behind the barline, or leave it before it.
    expect(clear(saved(right)).text.match(/<dashes/)).toBeNull();
    const left = [...notes(3), BACKUP, ...notes(3, { staff: 2, voice: '5' })];
    const more = `    </measure>\n    <measure number="2">\n${notes(2, { staff: 2, voice: '5' }).join('\n')}`;
    const last = score([...left, more].join('\n'));
    const marked = mark(last, { cues: [{ ...cue(3, 6), placement: 'below' }] });
    expect(/<dashes type="stop"[\s\S]*?<\/direction>\s*<\/measure>/.test(marked)).toBe(true);
    expect(clear(marked).text).toBe(last);
    expect(clear(saved(marked)).text.match(/<dashes/)).toBeNull();
  });

  it('end before the next words, and give their number on', () => {
    const text = mark(score(notes(6).join('\n')), { cues: [cue(0, 2), cue(2, 5, 'out')] });
    expect(outline(text).slice(3, 6)).toEqual(['note', 'stop-6', 'out']);
  });

  it('of the two hands have different numbers, and neither is one of the user’s', () => {
    const measure = [
      OWN('start', 6),
      ...notes(3),
      OWN('stop', 6),
      BACKUP,
      ...notes(3, { staff: 2, voice: '5' }),
    ];
    const left = { ...cue(3, 5, 'out'), placement: 'below' } as const;
    const text = mark(score(measure.join('\n')), { cues: [cue(0, 2), left] });
    expect(outline(text).filter((one) => /^st.*\d/.test(one))).toEqual([
      'start-5',
      'stop-5',
      'start-4',
      'stop-4',
    ]);
  });

  it.each([
    ['the note is on another staff', [note(), note(), note({ staff: 2 })], cue(0, 2)],
    ['the file has it before the words', [note(), note(), note(), BACKUP, note({ voice: '2' })], cue(3, 2)],
    [
      'the user has all numbers',
      [...[1, 2, 3, 4, 5, 6].map((one) => OWN('start', one)), ...notes(3)],
      cue(0, 2),
    ],
  ])('are not there where %s', (_, measure, one) => {
    expect(mark(score(measure.join('\n')), { cues: [one] })).not.toContain('<?handline dashes');
  });

  describe('in a part behind another one', () => {
    const two = (second: string): string =>
      score(notes(5).join('\n'))
        .replace('</part-list>', '<score-part id="P2"><part-name>Piano</part-name></score-part></part-list>')
        .replace(
          '</score-partwise>',
          `<part id="P2"><measure number="1"><attributes><divisions>2</divisions></attributes>${second}</measure></part></score-partwise>`,
        );
    const behind = { ...cue(1, 3), part: 1 };

    it('are there where it has one staff, and verovio joins them to their words', () => {
      const source = two(notes(5).join('').replaceAll('<staff>1</staff>', ''));
      const marked = mark(source, { cues: [cue(0, 2), behind] });
      expect(clear(marked).text).toBe(source);
      expect(clear(saved(marked)).text.match(/<dashes/)).toBeNull();
      toolkit.loadData(marked);
      // Up to the third and the fourth beat.
      const ends = [
        ...toolkit.getMEI({}).matchAll(/<dir .*?staff="(\d)".*? tstamp2="(.*?)" extender="true"/g),
      ];
      expect(ends.map(([, staff, end]) => [staff, end])).toEqual([
        ['1', '0m+3'],
        ['3', '0m+4'],
      ]);
    });

    it('are not there where it has several, of which verovio counts one within the part and one through the score', () => {
      const marked = mark(two(notes(5).join('')), { cues: [cue(0, 2), behind] });
      expect(marked.match(/<dashes/g)).toHaveLength(2);
    });
  });

  it('are not there where others with their number go on in the file', () => {
    const measure = [...notes(4), BACKUP, ...notes(4, { voice: '2' })];
    // The first ends in the second voice, and so behind the second.
    const text = mark(score(measure.join('\n')), { cues: [cue(0, 6), cue(1, 3, 'out')] });
    expect(outline(text).filter((one) => /^st.*\d/.test(one))).toEqual(['start-6', 'stop-6']);
  });

  it('go with the words when marks are cleared, and when a program has saved them', () => {
    const original = score([OWN('start', 1), ...notes(4), OWN('stop', 1), note()].join('\n'));
    const marked = mark(original, { cues: [cue(0, 2), cue(2, 4, 'out')] });
    expect(clear(marked)).toMatchObject({ text: original, warnings: [] });
    const again = saved(marked);
    expect(clear(again).text.match(/<dashes/g)).toHaveLength(2);
    expect(clear(again)).toMatchObject({ warnings: [] });
    expect(outline(clear(again).text)).toEqual(outline(original));
  });

  it('that the user has drawn from the same note to another stay', () => {
    const original = score([OWN('start', 1), ...notes(4), OWN('stop', 1), note()].join('\n'));
    const again = saved(mark(original, { cues: [cue(0, 2)] }));
    const { text } = clear(again);
    expect(outline(text)).toEqual(outline(original));
    expect(text).toContain('<dashes number="1" type="start"/>');
    expect(text).toContain('<dashes number="1" type="stop"/>');
  });

  it('that somebody has changed are left', () => {
    const marked = mark(score(notes(5).join('\n')), { cues: [cue(0, 3)] });
    const moved = marked.replace('type="stop" number="6"', 'type="continue" number="6"');
    const { text, warnings } = clear(moved);
    expect(text).toContain('type="continue"');
    expect(warnings.map(({ code, message }) => `${code} ${message}`)).toEqual([
      'NOT_OURS an end of our dashes has been changed since; what stands there was left',
    ]);
    const elsewhere = saved(marked).replace(
      /<direction[^>]*><direction-type><dashes type="stop".*?<\/direction>/,
      '',
    );
    expect(clear(elsewhere).text).toContain('<dashes type="start"');
  });
});
