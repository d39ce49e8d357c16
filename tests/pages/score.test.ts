import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadEngraver } from '../../packages/cli/src/pages/engraver.js';
import { excerptsOf, unnamed } from '../../packages/cli/src/pages/score/excerpt.js';
import { mostGraces } from '../../packages/cli/src/pages/score/graces.js';
import { longestMeasure } from '../../packages/cli/src/pages/score/lengths.js';
import { partwise } from '../../packages/cli/src/pages/score/partwise.js';
import { withoutTimes } from '../../packages/cli/src/pages/score/repeats.js';
import { withShortNames } from '../../packages/cli/src/pages/score/short-names.js';
import { scoreModel } from '../properties/generate.js';
import { toXml } from '../properties/generate-score.js';
import { rounds } from '../rounds.js';
import { DEMO } from './made.js';

describe('a timewise score', () => {
  it('is made partwise as the same score was written partwise', () => {
    fc.assert(
      fc.property(scoreModel, (model) => {
        // The same choices of spelling everywhere: the order of the notes differs.
        const style = { ...model.style, noise: [0] };
        const written = (timewise: boolean) => toXml({ ...model, style: { ...style, timewise } });
        const plain = (text: string) =>
          text
            .replace(/^[\s\S]*?(?=<score-)/, '')
            .replaceAll(/<\?[^?]*\?>|<!--.*?-->/g, '')
            .replaceAll(/>\s+</g, '><')
            .trim();
        expect(plain(partwise(written(true)))).toBe(plain(written(false)));
        const own = written(false);
        expect(partwise(own)).toBe(own);
      }),
      rounds(20),
    );
  });

  it('gives its parts every measure, also where one is silent', () => {
    const text = `<score-timewise><part-list/><!-- <measure> -->
      <measure number="1"><part id="A">a1</part></measure>
      <measure number="2"><part id="A"/><part id="B">b2</part></measure></score-timewise>`;
    expect(partwise(text).replaceAll(/\s*<!--.*?-->\s*/g, '')).toBe(
      '<score-partwise><part-list/><part id="A"><measure number="1">a1</measure><measure number="2"></measure></part>' +
        '<part id="B"><measure number="1"></measure><measure number="2">b2</measure></part></score-partwise>',
    );
  });
});

it('a repeat loses its number, and nothing else changes', () => {
  const score = `<a times="2"><!-- <repeat times="3"/> --><repeat direction="backward"TIMES/><b>times="4"</b></a>`;
  for (const times of [' times="1000000000"', "\n times = '7'", ''])
    expect(withoutTimes(score.replace('TIMES', times))).toBe(score.replace('TIMES', ''));
});

describe('an excerpt', () => {
  const note = (more = '') => `<note><rest/><duration>1</duration><notations>${more}</notations></note>`;
  const measure = (...content: string[]) => `<measure>${content.join('')}</measure>`;
  const score = (...measures: string[]) =>
    `<score-partwise><part>${measures.join('')}</part></score-partwise>`;
  const kept = (text: string) =>
    text
      .split('<measure>')
      .slice(1)
      .map((one) => one.includes('<note>'));

  it('has the notes of its measures, and what holds on from those before', () => {
    const clef = '<attributes><clef/></attributes>';
    const octave = '<direction><direction-type><octave-shift type="down"/></direction-type></direction>';
    const words = '<direction><direction-type><words>in</words></direction-type></direction>';
    const text = score(
      measure(clef, note(), words, octave, '<!-- <attributes> -->'),
      measure(note()),
      measure(note(), words),
    );
    const excerpt = excerptsOf(text);
    expect(excerpt(1, 1)).toBe(score(measure(clef, octave), measure(note()), measure()));
    expect(excerpt(0, 2)).toBe(text);
  });

  it('prints no time signature again, and no name', () => {
    const time = (more: string) =>
      `<attributes><time symbol="common"${more}><beats>4</beats></time></attributes>`;
    for (const more of ['', ' print-object="yes"', ' id="t"']) {
      const text = score(measure(time(more), note()), measure(note()));
      const shown = time(more.replace(/ print-object.*/, '')).replace('<time', '<time print-object="no"');
      expect(excerptsOf(text)(1, 1)).toBe(score(measure(shown), measure(note())));
    }
    const part = '<score-part id="P1"><part-name>Piano</part-name></score-part>';
    expect(unnamed(part)).toBe('<score-part id="P1"><part-name></part-name></score-part>');
    expect(unnamed(part + part)).toBe(part + part);
  });

  it('has the measures into which a slur, a tie or a hairpin leads, though not without end', () => {
    const from = note('<slur type="start" number="1"/>');
    const to = note('<slur type="stop" number="1"/>');
    const text = score(measure(note()), measure(from), measure(note()), measure(to), measure(note()));
    expect(kept(excerptsOf(text)(2, 2))).toEqual([false, true, true, true, false]);
    expect(kept(excerptsOf(text)(4, 4))).toEqual([false, false, false, false, true]);
    const endless = score(measure(from), ...Array.from({ length: 20 }, () => measure(note())));
    expect(kept(excerptsOf(endless)(15, 15)).filter((own) => own).length).toBeLessThan(20);
  });
});

it('counts grace notes that follow one another, and refuses hundreds of them', async () => {
  const [plain, grace] = ['<note><rest/></note>', '<note><chord/><grace slash="yes"/></note>'];
  const open = '<note><grace></grace></note>';
  expect(mostGraces(plain)).toBe(0);
  expect(mostGraces(`${grace}${open}${plain}${grace}${open}<!-- ${plain} -->${grace}${plain}${grace}`)).toBe(
    3,
  );
  const engraver = await loadEngraver();
  expect(() => engraver.systems(`<score-partwise>${grace.repeat(501)}${plain}</score-partwise>`)).toThrow(
    'cannot be engraved: more than 500 grace notes follow one another',
  );
});

it('measures how long a measure is, and refuses one of thousands of quarter notes', async () => {
  const rest = (duration: number | string, more = '') =>
    `<note>${more}<rest/><duration>${duration}</duration></note>`;
  const move = (name: string, duration: number) => `<${name}><duration>${duration}</duration></${name}>`;
  const score = (...measures: string[]) =>
    `<score-partwise><part>${measures.map((own) => `<measure>${own}</measure>`).join('')}</part></score-partwise>`;
  const two = '<attributes><divisions>2</divisions></attributes>';
  expect(longestMeasure(score(rest(3)))).toBe(3);
  expect(longestMeasure(score(two + rest(3), rest(4) + rest(4, '<chord/>') + rest(1)))).toBe(2.5);
  expect(longestMeasure(score(two + rest(8) + move('backup', 80) + move('forward', 6) + rest(6)))).toBe(6);
  expect(longestMeasure(score(`${two + rest('x') + rest('', '<grace/>')}<note/><duration/>${rest(2)}`))).toBe(
    1,
  );
  const engraver = await loadEngraver();
  expect(() => engraver.systems(score(rest(1), rest(1) + move('forward', 1999) + rest(1)))).toThrow(
    'cannot be engraved: a measure is longer than 2000 quarter notes',
  );
});

it('a score that is drawn by turns with its own breaks and without is drawn as the first time', async () => {
  const text = readFileSync(DEMO, 'utf8');
  const range = { first: 0, last: 7 };
  const engraver = await loadEngraver();
  const drawn = (['own', undefined, undefined, 'own'] as const).map((breaks) =>
    engraver.systems(text, { range, ...(breaks && { breaks }) }).map(({ measures }) => measures),
  );
  expect(drawn[2]).toEqual(drawn[1]);
  expect(drawn[3]).toEqual(drawn[0]);
  expect(drawn[1]).not.toEqual(drawn[0]);
});

describe('a name of a part', () => {
  const named = (name: string) =>
    `<score-part id="P1"><part-name print-object="yes">${name}</part-name></score-part>`;

  it('stays as it is where a page has room for it', () => {
    for (const name of ['', 'Piano', 'Pianoforte &amp; Celesta', 'x'.repeat(40)])
      expect(withShortNames(named(name))).toBe(named(name));
  });

  it('is cut where it is longer, never within a reference', () => {
    expect(withShortNames(named('x'.repeat(41)))).toBe(named(`${'x'.repeat(39)}…`));
    expect(withShortNames(named(`${'x'.repeat(37)}&amp;${'y'.repeat(5_000_000)}`))).toBe(
      named(`${'x'.repeat(37)}…`),
    );
  });

  it('is drawn cut', async () => {
    const { systems } = await loadEngraver();
    const [system] = systems(
      readFileSync(DEMO, 'utf8').replace(/(<part-name)[^>]*>[^<]*/, `$1>${'m'.repeat(1000)}`),
    );
    expect(system!.svg).toContain(`${'m'.repeat(39)}…`);
    expect(system!.svg).not.toContain('m'.repeat(40));
  });
});
