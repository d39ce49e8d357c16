import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { outsideReader } from '../conformance/outside-reader.js';
import { secondReader } from '../conformance/second-reader.js';
import { attributes, note, onePart } from '../musicxml/read-source.js';
import { mark } from '../musicxml/write-source.js';
import { factsOf } from './facts.js';
import { lilyPond, lilyPondErrors, museScore, music21 } from './programs.js';

/** A plain digit, a substitution, two digits of a chord, with cues and a second choice. */
const SCORE = onePart([
  attributes() +
    note('C5', 4) +
    note('D5', 4) +
    note('E5', 4) +
    note('G5', 4, { lead: '<chord/>' }) +
    note('A5', 4),
]);
const MARKED = mark(SCORE, {
  digits: [
    { part: 0, note: 0, finger: 1, placement: 'above' },
    { part: 0, note: 1, finger: 4, substitution: 5, placement: 'above' },
    { part: 0, note: 2, finger: 2, placement: 'above' },
    { part: 0, note: 3, finger: 4, placement: 'above' },
    { part: 0, note: 4, finger: 5, placement: 'above' },
  ],
  cues: [
    { part: 0, note: 0, text: 'thumb passes\nin', placement: 'above' },
    { part: 0, note: 1, text: '–', placement: 'above' },
    { part: 0, note: 2, text: '2 (1)\n4 (3)', placement: 'above' },
  ],
});
const DIGITS = ['1', '4-5', '2', '4', '5'];
/** Without white space: LilyPond sets the lines on one. */
const WORDS = ['thumbpassesin', '–', '2(1)4(3)'];

const lastWords = (facts: readonly string[]) => facts.map((fact) => fact.replace(/^.* staff \S+ /, ''));
const squeeze = (text: string) => text.replaceAll(/\s/g, '');

describe('what readers show is what was written', () => {
  it.each([museScore, music21])('$name', ({ missing, save }) => {
    if (missing !== undefined) return console.log(missing);
    const { digits, words } = factsOf(save(new Map([['marked', MARKED]])).get('marked')!);
    expect(digits.map((digit) => digit.split(' ').at(-1)).sort()).toEqual([...DIGITS].sort());
    expect(lastWords(words).map(squeeze).sort()).toEqual([...WORDS].sort());
  });

  describe.each(['verovio', 'OpenSheetMusicDisplay'])('%s', (name) => {
    let read: Awaited<ReturnType<typeof outsideReader>>;
    beforeAll(async () => {
      read = name === 'verovio' ? await outsideReader() : secondReader();
    });
    it('shows them all', () => {
      const { digits, words } = read(MARKED);
      expect(digits.map((digit) => digit.split(' ').at(-1)).sort()).toEqual([...DIGITS].sort());
      expect(words.map((one) => one.replace(/ @.*/, '')).sort()).toEqual([...WORDS].sort());
    });
  });

  it.skipIf(lilyPond.missing !== undefined)('LilyPond, which sets 4-5 as 4 over 5', () => {
    const text = lilyPond.save(new Map([['marked', MARKED]])).get('marked')!;
    for (const digit of DIGITS) expect(text).toContain(`^${digit}`);
    for (const words of WORDS) expect(squeeze(text)).toContain(`{${words}}`);
    expect(lilyPondErrors(text)).toEqual([]);
  });

  it.skipIf(lilyPond.missing !== undefined)(
    'LilyPond would refuse a score with other texts at a note',
    () => {
      for (const digit of ['2 (3)', '2/3', '1‿2']) {
        const one = MARKED.replace('>4-5<', `>${digit}<`);
        expect(lilyPondErrors(lilyPond.save(new Map([['marked', one]])).get('marked')!)).not.toEqual([]);
      }
    },
  );
});

/** Why a move over several notes has dashes of words behind it, and no line: docs/cues.md. */
describe('a line behind our words', () => {
  const lined = (start: string, stop: string) =>
    MARKED.replace('</direction-type>', `</direction-type><direction-type>${start}</direction-type>`).replace(
      '</measure>',
      `<direction><direction-type>${stop}</direction-type></direction></measure>`,
    );
  const dashes = lined('<dashes type="start" number="1"/>', '<dashes type="stop" number="1"/>');
  const bracket = lined(
    '<bracket type="start" number="1" line-end="none" line-type="dotted"/>',
    '<bracket type="stop" number="1" line-end="none"/>',
  );

  it.skipIf(museScore.missing !== undefined)('takes their font from them in MuseScore 3', () => {
    const saved = museScore.save(
      new Map([
        ['without', MARKED],
        ['dashes', dashes],
        ['bracket', bracket],
      ]),
    );
    const tokens = (name: string) => saved.get(name)!.match(/,handline-/g)?.length ?? 0;
    expect([tokens('without'), tokens('dashes'), tokens('bracket')]).toEqual([3, 2, 2]);
  });

  it.skipIf(lilyPond.missing !== undefined)('is a trill in LilyPond, or nothing', () => {
    const texts = lilyPond.save(
      new Map([
        ['dashes', dashes],
        ['bracket', bracket],
      ]),
    );
    expect(texts.get('dashes')).toContain('TrillSpan');
    expect(texts.get('bracket')).not.toContain('Span');
  });
});

/** What a program makes of one file with everything that a mark or a record could be made of. */
describe('what programs keep', () => {
  const probe = readFileSync(fileURLToPath(new URL('./probe.musicxml', import.meta.url)), 'utf8');
  /** By what is looked for in the saved file: the findings of docs/other-programs.md. */
  const KEPT: Readonly<Record<string, RegExp>> = {
    instruction: /<\?probe/,
    'miscellaneous-field': /<miscellaneous-field name="probe-short">short text/,
    'font-family of words': /<words[^>]*font-family="Probe Serif, ?probe-token"/,
    'font-size of words': /<words[^>]*font-size="7\.3"/,
    'color of words': /<words[^>]*color="#000001"/,
    'enclosure of words': /<words[^>]*enclosure="rectangle"/,
    'placement of directions': /<direction placement="above"/,
    'voice of directions': /<direction[^>]*>(?:(?!<\/direction>)[\s\S])*<voice>/,
    'staff of directions': /<direction[^>]*>(?:(?!<\/direction>)[\s\S])*<staff>/,
    dashes: /<dashes/,
    credit: /<credit-words[^>]*>legend credit/,
    ids: /\bid="(?:n1|w1|f1)"/,
    'placement of fingering': /<fingering[^>]*placement/,
    'color of fingering': /<fingering[^>]*color/,
    'font of fingering': /<fingering[^>]*font-family/,
    'first of two fingerings': /<fingering[^>]*>2</,
    'last of two fingerings': /<fingering[^>]*>3</,
    substitution: /<fingering[^>]*substitution="yes"/,
    source: /<source>by hand/,
  };
  const found = (text: string) => Object.keys(KEPT).filter((name) => KEPT[name]!.test(text));

  it.skipIf(museScore.missing !== undefined)('MuseScore 3', () => {
    const kept = found(museScore.save(new Map([['probe', probe]])).get('probe')!);
    console.log(`MuseScore 3 keeps: ${kept.join(', ')}`);
    expect(kept).toEqual([
      'font-family of words',
      'font-size of words',
      'enclosure of words',
      'placement of directions',
      'staff of directions',
      'dashes',
      'credit',
      'last of two fingerings',
      'source',
    ]);
  });

  it.skipIf(music21.missing !== undefined)('music21', () => {
    const kept = found(music21.save(new Map([['probe', probe]])).get('probe')!);
    console.log(`music21 keeps: ${kept.join(', ')}`);
    expect(kept).toEqual([
      'miscellaneous-field',
      'font-family of words',
      'font-size of words',
      'color of words',
      'enclosure of words',
      'placement of directions',
      'staff of directions',
      'credit',
      'placement of fingering',
      'first of two fingerings',
    ]);
  });
});

for (const { missing } of [museScore, music21, lilyPond]) if (missing !== undefined) console.log(missing);
