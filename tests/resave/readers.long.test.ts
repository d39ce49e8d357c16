import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { markReview, review } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { outsideReader } from '../conformance/outside-reader.js';
import { secondReader } from '../conformance/second-reader.js';
import { attributes, note, onePart } from '../musicxml/read-source.js';
import { clear, mark } from '../musicxml/write-source.js';
import { drawnPages } from '../page/drawn.js';
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
    { part: 0, note: 2, text: '2 (1)\n4 (3)', placement: 'above' },
  ],
});

/** The user's digits on single notes and a chord, and a review that proposes others. */
const fingered = (digit: number) => `<technical><fingering>${digit}</fingering></technical>`;
const PRINTED = onePart([
  attributes() +
    note('C5', 4, { notations: fingered(1) }) +
    note('D5', 4, { notations: fingered(2) }) +
    note('E5', 4, { notations: fingered(2) }) +
    note('G5', 4, { lead: '<chord/>', notations: fingered(3) }) +
    note('A5', 4, { notations: fingered(5) }),
]);
const REVIEWED = markReview(
  PRINTED,
  review(PRINTED, {
    tries: [{ measure: '1', hand: 'right', digits: [[1], [3], [1, 4], [5]] }],
  }),
);

interface Shown {
  readonly text: string;
  readonly digits: readonly string[];
  /** Without white space: LilyPond sets the lines on one. */
  readonly words: readonly string[];
  /** Whether there is a legend besides. */
  readonly legend: boolean;
}

const WRITTEN: Readonly<Record<string, Shown>> = {
  'plain digits, a substitution, digits and second choices of a chord, cues': {
    text: MARKED,
    digits: ['1', '4-5', '2', '4', '5'],
    words: ['thumbpassesin', '2(1)4(3)'],
    legend: false,
  },
  "alternatives of a review beside the user's digits": {
    text: REVIEWED,
    digits: ['1', '2', '2', '3', '5'],
    words: ['(3)', '3(4)2(1)'],
    legend: true,
  },
};

const lastWords = (facts: readonly string[]) => facts.map((fact) => fact.replace(/^.* staff \S+ /, ''));
const squeeze = (text: string) => text.replaceAll(/\s/g, '');

describe.each(Object.entries(WRITTEN))(
  'readers show what was written: %s',
  (_, { text, digits, words, legend }) => {
    const expectWords = (shown: readonly string[]) =>
      legend
        ? expect(shown).toEqual(expect.arrayContaining([...words]))
        : expect([...shown].sort()).toEqual([...words].sort());
    const digitsIn = (facts: readonly string[]) => facts.map((digit) => digit.split(' ').at(-1)).sort();

    it.each([museScore, music21])('$name', ({ missing, save }) => {
      if (missing !== undefined) return console.log(missing);
      const shown = factsOf(save(new Map([['marked', text]])).get('marked')!);
      expect(digitsIn(shown.digits)).toEqual([...digits].sort());
      expectWords(lastWords(shown.words).map(squeeze));
    });

    it.each(['verovio', 'OpenSheetMusicDisplay'])('%s', async (name) => {
      const read = name === 'verovio' ? await outsideReader() : secondReader();
      const shown = read(text);
      expect(digitsIn(shown.digits)).toEqual([...digits].sort());
      expectWords(shown.words.map((one) => one.replace(/ @.*/, '')));
    });

    it.skipIf(lilyPond.missing !== undefined)('LilyPond, which sets 4-5 as 4 over 5', () => {
      const ly = lilyPond.save(new Map([['marked', text]])).get('marked')!;
      for (const digit of digits) expect(ly).toMatch(new RegExp(`[-^]${digit}\\b`));
      for (const one of words) expect(squeeze(ly)).toContain(`{${one}}`);
      expect(lilyPondErrors(ly)).toEqual([]);
    });
  },
);

describe('what readers would not show', () => {
  it.skipIf(museScore.missing !== undefined)("MuseScore 3: the user's digit before an alternate one", () => {
    const alternate = PRINTED.replace(
      '2</fingering>',
      '2</fingering><fingering alternate="yes">3</fingering>',
    );
    const { digits } = factsOf(museScore.save(new Map([['one', alternate]])).get('one')!);
    expect(digits.map((digit) => digit.split(' ').at(-1)).sort()).toEqual(['1', '2', '3', '3', '5']);
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

/** Why dashes are directions of their own, and no brackets: docs/cues.md. */
describe('dashes behind our words', () => {
  const ours = mark(SCORE, {
    digits: [],
    cues: [{ part: 0, note: 0, text: 'in', placement: 'above', dashesTo: 4 }],
  });
  const bare = ours.replaceAll(/<\?handline.*?\?>/g, '');
  const ONE = '</direction-type><direction-type><dashes type="start" number="6"/></direction-type>';
  const START = /<direction [^>]*><direction-type><dashes type="start".*?<\/direction>/;
  const together = bare.replace(START, '').replace('</direction-type>', ONE);
  const bracket = bare
    .replace(
      '<dashes type="start" number="6"/>',
      '<bracket type="start" number="6" line-end="none" line-type="dashed"/>',
    )
    .replace('<dashes type="stop" number="6"/>', '<bracket type="stop" number="6" line-end="none"/>');

  it.skipIf(museScore.missing !== undefined)(
    'are kept in MuseScore 3, with the font of the words where they are two directions',
    () => {
      const saved = museScore.save(new Map(Object.entries({ ours, together, bracket })));
      const count = (name: string, what: string) => saved.get(name)!.split(what).length - 1;
      expect(['ours', 'together', 'bracket'].map((name) => count(name, ',handline-'))).toEqual([1, 0, 1]);
      expect(['ours', 'together', 'bracket'].map((name) => count(name, '<dashes'))).toEqual([2, 2, 2]);
      expect(factsOf(clear(saved.get('ours')!).text)).toMatchObject({ words: [], dashes: [] });
    },
  );

  it('are drawn behind the words in verovio, while a bracket is drawn by itself', () => {
    const [page] = drawnPages(ours);
    const texts = page!.boxes.filter((box) => box.ours).map(({ text }) => text);
    expect(texts).toContain('in');
    expect(texts).toContain('–');
    expect(
      drawnPages(bracket)[0]!
        .boxes.filter((box) => box.ours)
        .map(({ text }) => text),
    ).toEqual(['in']);
  });

  it.skipIf(lilyPond.missing !== undefined)(
    'are a trill in LilyPond, as all dashes are, and a bracket is nothing',
    () => {
      const texts = lilyPond.save(new Map(Object.entries({ ours, bracket })));
      expect(texts.get('ours')).toContain('\\startTrillSpan');
      expect(texts.get('bracket')).not.toContain('Span');
      // The remedy of docs/other-programs.md.
      const mended = texts.get('ours')!.replaceAll(/(start|stop)TrillSpan/g, '$1TextSpan');
      expect(lilyPondErrors(mended)).toEqual([]);
    },
  );
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
