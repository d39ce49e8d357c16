import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CueMark, Marks } from '#core/musicxml/marks/edit.js';
import { xmlText } from '#core/musicxml/marks/insertions.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { nested, note, score } from './write-score.js';
import { clear, mark } from './write-source.js';

const cue = (at: number, text = 'in'): CueMark => ({ part: 0, note: at, text, placement: 'above' });

/** The measure's lines with the cues as `[text staff voice]`. */
function outline(measure: readonly string[], marks: Partial<Marks>): string[] {
  const text = mark(score(measure.join('\n')), marks);
  const from = text.indexOf('</attributes>') + '</attributes>\n'.length;
  const lines = text.slice(from, text.indexOf('    </measure>')).trimEnd().split('\n');
  return lines.map((line) => {
    const words = /<words[^>]*>(.*)<\/words>/.exec(line)?.[1];
    const voice = /<voice>(.*)<\/voice>/.exec(line)?.[1] ?? '-';
    return words === undefined
      ? line.trim()
      : `[${words} ${/<staff>(.*)<\/staff>/.exec(line)?.[1]} ${voice}]`;
  });
}

const plain = (lines: readonly string[]) => lines.map((line) => line.trim());

describe('cues', () => {
  it('say what they are told to, whatever it is', () => {
    const piece = fc.oneof(
      fc.constantFrom(
        '&',
        'amp;',
        '&amp;',
        '&uml;',
        '&#65;',
        '&#x41;',
        '<',
        '>',
        ']]>',
        '"',
        "'",
        '?>',
        '<!--',
        '\u05d0',
        ' ',
      ),
      fc.string({ unit: 'binary', maxLength: 6 }),
    );
    const original = score(note({ voice: '3', staff: 2 }));
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 8 }), (pieces) => {
        const text = xmlText(pieces.join(''));
        fc.pre(text.trim() !== '' && !text.includes('\n'));
        const marked = mark(original, { cues: [cue(0, text)] });
        const words = parseTree(marked, DEFAULT_LIMITS).within('words');
        expect(words.map((one) => one.text)).toEqual([text]);
        expect(clear(marked)).toMatchObject({ text: original, warnings: [] });
      }),
      { numRuns: 300 },
    );
  });

  it('are directions in the order of the schema, right before their note', () => {
    const text = mark(score(note({ voice: '3', staff: 2 })), { cues: [cue(0)] });
    expect(text).toContain(
      '\n      <?handline cue in?><direction placement="above"><direction-type>' +
        '<words font-family="Edwin,FreeSerif,Times New Roman,serif,handline-i3gxwe" font-size="8">in</words></direction-type><voice>3</voice><staff>2</staff></direction>\n      <note>',
    );
  });

  it('are laid out like the note', () => {
    expect(mark(score(nested()), { cues: [cue(0)] })).toContain(
      [
        '      <?handline cue in?><direction placement="above">',
        '        <direction-type>',
        '          <words font-family="Edwin,FreeSerif,Times New Roman,serif,handline-i3gxwe" font-size="8">in</words>',
        '        </direction-type>',
        '        <voice>1</voice>',
        '        <staff>1</staff>',
        '      </direction>',
        '      <note>',
      ].join('\n'),
    );
  });

  it('never stand inside a chord, even where the user’s own direction does', () => {
    const chord = [
      note(),
      note(),
      '      <direction><direction-type><dynamics><p/></dynamics></direction-type></direction>',
      note({ before: '<chord/>', octave: 5 }),
      note({ before: '<chord/>', octave: 6 }),
    ];
    expect(outline(chord, { cues: [cue(3)] })).toEqual(
      plain([chord[0] ?? '', '[in 1 1]', ...chord.slice(1)]),
    );
  });

  it('begin a chord whose first head is a rest or unpitched for the analysis', () => {
    const cueHead = note({ before: '<cue/>' });
    const measure = [note(), cueHead, note({ before: '<chord/>', octave: 5 })];
    expect(outline(measure, { cues: [cue(1)] })[1]).toBe('[in 1 1]');
  });

  it('take the staff of their own note in a cross-staff chord, and then no voice', () => {
    const measure = [
      note({ staff: 2, voice: '5' }),
      note({ before: '<chord/>', staff: 1, voice: '5', octave: 5 }),
    ];
    expect(outline(measure, { cues: [cue(1)] })[0]).toBe('[in 1 -]');
    expect(outline(measure, { cues: [cue(0)] })[0]).toBe('[in 2 5]');
  });

  it('follow a backup, mid-measure attributes, a comment and other directions', () => {
    const between = [
      '      <backup><duration>2</duration></backup>',
      '      <attributes><clef number="2"><sign>G</sign><line>2</line></clef></attributes>',
      '      <direction><direction-type><words>dolce</words></direction-type></direction>',
      '      <!-- left hand -->',
    ];
    const measure = [note(), ...between, note({ staff: 2, voice: '5' })];
    const expected = [...measure.slice(0, -1), '[in 2 5]', measure.at(-1) ?? ''].map((line) =>
      line.includes('dolce') ? '[dolce undefined -]' : line.trim(),
    );
    expect(outline(measure, { cues: [cue(1)] })).toEqual(expected);
  });

  it('stand before their own grace note', () => {
    const measure = [
      note({ before: '<grace/>' }),
      note({ before: '<grace/>', octave: 5 }),
      note({ octave: 6 }),
    ];
    const lines = plain(measure);
    for (const at of [0, 1, 2]) {
      const expected = [...lines];
      expected.splice(at, 0, '[in 1 1]');
      expect(outline(measure, { cues: [cue(at)] })).toEqual(expected);
    }
  });

  it('say what they are asked to, whatever it is', () => {
    const text = mark(score(note()), { cues: [cue(0, 'a<b> & "c" ?> \u0001\ud800\rü')] });
    expect(text).toContain('>a&lt;b&gt; &amp; "c" ?&gt; \ufffd\ufffd&#10;ü</words>');
    expect(text).toMatch(
      /<\?handline cue a%3Cb%3E%20%26%20%22c%22%20%3F%3E%20%EF%BF%BD%EF%BF%BD%0A%C3%BC\?>/,
    );
  });

  it.each(['above', 'below'] as const)(
    'of several lines are one direction, read from the top: %s',
    (placement) => {
      const lines = { text: 'thumb passes\nin', note: 0, part: 0, placement };
      expect(outline([note()], { cues: [lines] })[0]).toBe('[thumb passes&#10;in 1 1]');
    },
  );

  it('are printed in the font of the score’s own words, where it names one', () => {
    const head = (family: string) => `  <defaults><word-font font-family="${family}"/></defaults>`;
    const familyIn = (family: string) =>
      /font-family="([^"]*),handline/.exec(
        mark(score(note(), { head: head(family) }), { cues: [cue(0)] }),
      )?.[1];
    expect(familyIn('Garamond, Times')).toBe('Garamond, Times,Edwin,FreeSerif,Times New Roman,serif');
    for (const family of ['', ',', 'handline-1'])
      expect(familyIn(family)).toBe('Edwin,FreeSerif,Times New Roman,serif');
  });

  it('use references in encodings that may lack a letter', () => {
    const text = mark(score(note(), { encoding: 'ISO-8859-1' }), { cues: [cue(0, 'außen ↗ \u{1f3b9}')] });
    expect(text).toContain('>au&#223;en &#8599; &#127929;</words>');
    expect(text).toMatch(/^\p{ASCII}*$/u);
  });

  it('leave out what is blank', () => {
    expect(mark(score(note()), { cues: [cue(0, ' \n ')] })).toBe(score(note()));
  });
});

describe('the legend', () => {
  const legend = 'in: towards the fallboard\nout: away from it';

  it.each([
    ['', 'no credits'],
    ['  <credit page="1"><credit-words>Tune</credit-words></credit>', 'credits'],
  ])('is a direction for each line below the staff, behind the cue of its note: %s%s', (head) => {
    const measure = ['      <forward><duration>2</duration></forward>', note()];
    const text = mark(score(measure.join('\n'), { head }), { cues: [cue(0)], legend });
    const words = [...text.matchAll(/<(words|forward|note)\b[^>]*>([^<]*)/g)].map(
      ([, name, said]) => said || name,
    );
    expect(words).toEqual(['in: towards the fallboard', 'out: away from it', 'forward', 'in', 'note']);
    const there = mark(score(note({ staff: 2 }), { head }), { cues: [cue(0)], legend });
    expect(there.indexOf('>in<')).toBeLessThan(there.indexOf('>in: towards'));
    expect(text.match(/<\?handline legend/g)).toHaveLength(2);
    expect(text.split('<credit').length).toBe(score('', { head }).split('<credit').length);
  });

  it('names the lowest of several staves, and none where there is one', () => {
    const text = score(note());
    const staffOf = (own: string) =>
      /<\?handline legend.*?<\/direction>/s
        .exec(mark(own, { cues: [cue(0)], legend }))![0]
        .match(/<staff>.*?<\/staff>/g);
    expect(staffOf(text)).toEqual(['<staff>2</staff>']);
    expect(staffOf(text.replace('<staves>2</staves>', ''))).toBeNull();
  });

  it('begins at the lowest staff of the last measure with room, where six onsets follow', () => {
    const lower = (of: number) => Array.from({ length: of }, () => note({ staff: 2, voice: '5' }));
    const measures = (...sizes: number[]) =>
      score(sizes.map((size) => lower(size).join('\n')).join('\n    </measure>\n    <measure>\n'));
    const place = (text: string) => {
      const marked = mark(text, { cues: [cue(0)], legend });
      return marked.slice(0, marked.indexOf('handline legend')).split('<measure').length - 1;
    };
    expect(place(measures(8, 8, 8))).toBe(3);
    expect(place(measures(8, 8, 1))).toBe(2);
    expect(place(measures(8, 4, 1))).toBe(1);
    expect(place(measures(1, 1, 1))).toBe(1);
  });

  it('is not written without marks', () => {
    expect(mark(score(note()), { legend })).toBe(score(note()));
  });
});
