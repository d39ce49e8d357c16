import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, note, onePart } from './read-source.js';

const words = (attribute: string, text = 'dolce') =>
  `<direction><direction-type><words ${attribute}>${text}</words></direction-type></direction>`;
const fingering = (digit: string, attributes = '') =>
  `<notations><technical><fingering${attributes}>${digit}</fingering></technical></notations>`.replace(
    /^<notations>|<\/notations>$/g,
    '',
  );
const withoutInstructions = (text: string) => text.replaceAll(/<\?handline[^?]*\?>/g, '');

describe('what only looks like ours', () => {
  it.each([
    ['words in black', words('color="#000001"')],
    ['words in a font of a name like ours', words('font-family="handline-"')],
    ['words in a font of our name but with another text', words('font-family="serif,handline-i3gxwe"')],
    ['an instruction of a stranger', `<?handline note to self?>${words('font-size="9"')}`],
    ['an instruction that names what follows', `<?handline cue dolce?>${words('font-size="9"')}`],
  ])('%s stays when a score is marked and cleared', (_, own) => {
    const text = onePart([attributes() + own + note('C5', 4) + note('D5', 4)]);
    const { output, report } = annotate(text);
    const back = clear(output).output;
    for (const one of [output, back]) expect(one).toMatch(/<words[^>]*>dolce<\/words>/);
    expect(clear(back).output).toBe(back);
    const [instruction] = /<\?.*?\?>/.exec(own) ?? [];
    if (instruction === undefined) return;
    if (!output.includes(instruction)) expect(report.warnings).toMatchObject([{ code: 'NOT_OURS' }]);
    expect(output.includes(instruction)).toBe(back.includes(instruction));
  });

  it('a digit of the user’s before which a stranger’s instruction stands', () => {
    const own = `<?handline digit 3?>${fingering('3')}`;
    const text = onePart([attributes() + note('C5', 4, { notations: own }) + note('D5', 4)]);
    expect(clear(annotate(text).output).output).toContain('<fingering>3</fingering>');
  });

  it.each([
    `kept ${'x'.repeat(200_000)}`,
    `kept ${encodeURIComponent(`<fingering>${'5'.repeat(200_000)}</fingering>`)}`,
    `cue ${'x'.repeat(200_000)}`,
    `legend ${'%0A'.repeat(70_000)}`,
    `digit ${'3'.repeat(200_000)}`,
    `dashes ${'7'.repeat(200_000)}`,
    'y'.repeat(200_000),
  ])('is quoted shortly: %.12s...', (instruction) => {
    const text = onePart([`${attributes()}<?handline ${instruction}?>${note('C5', 4)}`]);
    for (const warnings of [clear(text).warnings, annotate(text).report.warnings]) {
      expect(warnings).toMatchObject([{ code: 'NOT_OURS', place: { part: 'P1', measure: '1', line: 1 } }]);
      expect(warnings[0]!.message.length).toBeLessThan(200);
    }
  });

  it('is said to be left only where something is', () => {
    const text = onePart([attributes() + note('C5', 4) + note('D5', 4)]);
    const marked = annotate(text, { layers: [] }).output;
    const without = marked.replace(/<notations>(?:(?!<\/notations>)[\s\S])*<\/notations>/, '');
    const cleared = clear(without);
    expect(cleared.output).toBe(text);
    expect(cleared.warnings.map(({ message }) => message)).toEqual([
      'a digit of ours is not there any more; nothing to take out',
    ]);
  });
});

describe('a score that was saved without instructions', () => {
  const text = onePart([
    attributes() +
      ['C5', 'D5', 'E5', 'F5', 'G5', 'F5', 'D5', 'C5', 'D5', 'G5'].map((name) => note(name, 4)).join(''),
  ]);
  const saved = withoutInstructions(annotate(text, { layers: [] }).output);
  const run = ['C', 'D', 'E', 'F', 'G', 'A', 'B'].map((step) => note(`${step}4`, 4));
  const many = onePart([attributes() + [...run, ...run, ...run.toReversed()].join('')]);

  it('is cleared whole', () => {
    expect(clear(saved)).toEqual({ output: text, warnings: [] });
  });

  it('has nothing twice when it is marked anew, and the user’s digits back when that is cleared', () => {
    const own = text.replace('</note>', `<notations>${fingering('4')}</notations></note>`);
    const options = { density: 'every', existing: 'replace', alternatives: 1, legend: true } as const;
    const once = annotate(own, options).output;
    expect(once).not.toMatch(/<fingering>4/);
    const again = annotate(withoutInstructions(once), options).output;
    const marks = (score: string) => score.match(/<words|<fingering/g)!.length;
    expect(marks(again)).toBe(marks(once));
    expect(clear(again)).toEqual({ output: own, warnings: [] });
  });

  it.each([
    [
      'transposed',
      (score: string) =>
        score
          .replaceAll(
            /<step>(.)/g,
            (_, step: string) => `<step>${{ C: 'D', D: 'E', E: 'F', F: 'G', G: 'A' }[step]}`,
          )
          .replaceAll('<step>F</step>', '<step>F</step><alter>1</alter>'),
    ],
    [
      'with a new note in it',
      (score: string) => score.replace(/<note>(?=(?:(?!<note>)[\s\S])*<step>E)/, `${note('B4', 4)}<note>`),
    ],
    [
      'without a note of it',
      (score: string) => score.replace(/<note>(?:(?!<note>)[\s\S])*<step>E[\s\S]*?<\/note>/, ''),
    ],
  ])('%s, it is cleared all the same', (_, change) => {
    const changed = change(saved);
    expect(changed).not.toBe(saved);
    const { output, warnings } = clear(changed);
    expect(output).not.toContain('<fingering');
    expect(output.match(/<note>/g)).toHaveLength(changed.match(/<note>/g)!.length);
    expect(warnings).toEqual([]);
  });

  it('keeps a digit that was changed, and tells of it', () => {
    const changed = saved.replace(/(<fingering[^>]*>)\d/, '$15');
    const { output, warnings } = clear(changed);
    expect(output.match(/<fingering/g)).toHaveLength(1);
    expect(warnings.map(({ code, message }) => [code, message])).toEqual([
      ['NOT_OURS', "a digit has been changed since we wrote it; it was left as the user's own"],
    ]);
    expect(clear(output)).toEqual({ output, warnings: [] });
    expect(clear(annotate(changed).output)).toEqual({ output, warnings: [] });
  });

  it('keeps a cue that was changed, and tells of it', () => {
    const changed = withoutInstructions(annotate(many, { density: 'every' }).output).replace(
      /(<words[^>]*>)[a-z][^<]*/,
      '$1gently',
    );
    const { output, warnings } = clear(changed);
    expect(output.match(/<words[^>]*>[^<]*/g)).toEqual([expect.stringMatching(/>gently$/)]);
    expect(warnings).toMatchObject([{ code: 'NOT_OURS', message: /"gently" hold a cue of ours but/ }]);
    expect(clear(annotate(changed).output)).toEqual({ output, warnings: [] });
  });

  it('tells how many digits are left where words of ours have been taken out since', () => {
    const marked = withoutInstructions(annotate(many, { density: 'every' }).output);
    const words = [...marked.matchAll(/<direction (?:(?!<\/direction>)[\s\S])*?<\/direction>/g)];
    const count = (score: string) => score.match(/<fingering/g)?.length ?? 0;
    let told = 0;
    for (const { 0: own, index } of words) {
      const { output, warnings } = clear(marked.slice(0, index) + marked.slice(index + own.length));
      const left = count(output);
      if (left === 0) expect(warnings).toEqual([]);
      else {
        told++;
        expect(warnings).toMatchObject([{ code: 'NOT_OURS' }]);
        expect(warnings[0]!.message).toContain(left === 1 ? 'a digit of ours' : `${left} digits of ours`);
      }
    }
    expect(told).toBeGreaterThan(1);
    expect(clear(marked)).toEqual({ output: many, warnings: [] });
  });

  it('has no cue twice where it kept no fonts either', () => {
    const marked = annotate(text, { density: 'every' }).output;
    const bare = withoutInstructions(marked).replaceAll(/ font-family="[^"]*handline[^"]*"/g, '');
    const cues = (score: string) => score.match(/<words/g)?.length ?? 0;
    expect(cues(bare)).toBeGreaterThan(0);
    expect(cues(annotate(bare, { density: 'every' }).output)).toBe(cues(bare));
  });
});

describe('digits of the user’s', () => {
  const chord = (low = '', high = '') =>
    annotate(
      onePart([
        attributes() +
          note('C3', 4, { notations: low }) +
          note('C6', 4, { lead: '<chord/>', notations: high }) +
          note('D6', 4),
      ]),
      { hands: 'right' },
    ).report;

  it.each(['1', '2', '3', '4', '5'])('%s is not blamed for a chord that no hand can reach', (digit) => {
    const [line] = chord().lines;
    expect(line!.slices[0]!.fingers).toEqual([null, 5]);
    for (const report of [chord(fingering(digit)), chord('', fingering(digit))]) {
      expect(report.warnings.map(({ code }) => code)).toEqual(['UNPLAYABLE']);
      expect(report.lines[0]!.unreachable).toEqual(line!.unreachable);
      expect(report.lines[0]!.slices[0]!.fingers[0]).toBeNull();
    }
    expect(chord('', fingering(digit)).lines[0]!.slices[0]!.fingers).toEqual([null, Number(digit)]);
  });
});

it('a part with the id of an earlier one goes on from it, and that is told', () => {
  const text = onePart([attributes() + note('C5', 4), note('D5', 4)]).replace(
    '</measure>',
    '</measure></part><part id="P1">',
  );
  const { report } = annotate(text);
  expect(report.lines).toMatchObject([{ part: 'P1', notes: 2 }]);
  expect(report.warnings).toMatchObject([
    { code: 'IMPERFECT', message: /earlier part has the same id/, place: { part: 'P1' } },
  ]);
});

it('of a chord of every key a warning names some', () => {
  const keys = [...'CDEFGAB'].flatMap((step) => [1, 2, 3, 4, 5, 6].map((octave) => `${step}${octave}`));
  const chord = keys.map((key, at) => note(key, 4, at > 0 ? { lead: '<chord/>' } : {})).join('');
  const { report } = annotate(onePart([attributes() + chord]), { hands: 'right' });
  const [told] = report.warnings.filter(({ code }) => code === 'UNPLAYABLE');
  expect(told!.message).toMatch(/and \d+ more/);
  expect(told!.message.length).toBeLessThan(400);
});

it('notes without a staff in a part of two: that one hand has nothing is told', () => {
  const own = [attributes() + note('C5', 4), note('C3', 4)].join('').replaceAll(/<staff>\d<\/staff>/g, '');
  const { report } = annotate(onePart([own]));
  expect(report.warnings).toMatchObject([{ code: 'IMPERFECT', message: /left hand has nothing to play/ }]);
  const rightAlone = onePart([attributes() + note('C5', 4)]);
  expect(annotate(rightAlone).report.warnings).toEqual([]);
});

it('a score without parts or notes is told of and comes back as it was', () => {
  const bare = onePart([]);
  for (const text of [bare.replace(/<part .*<\/part>/, ''), bare, onePart([attributes()])]) {
    const { output, report } = annotate(text);
    expect(output).toBe(text);
    expect(report.warnings).toHaveLength(1);
  }
});
