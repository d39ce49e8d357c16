import { describe, expect, it } from 'vitest';
import { fingeringsIn } from '#core/musicxml/marks/clear/match.js';
import type { Marks } from '#core/musicxml/marks/edit.js';
import { nested, note, score } from './write-score.js';
import { clear, mark, read } from './write-source.js';

const MARKS: Partial<Marks> = {
  digits: [{ part: 0, note: 0, finger: 3, substitution: 4, placement: 'above' }],
  cues: [{ part: 0, note: 0, text: 'in & out', placement: 'above' }],
  legend: 'in: in',
};
const original = score(nested());
const marked = mark(original, MARKS);

/** Clears a marked text that somebody has changed; the warnings as `line: message`. */
function clearChanged(from: string | RegExp, to: string, text = marked) {
  const changed = text.replace(from, to);
  expect(changed).not.toBe(text);
  const { text: cleared, warnings } = clear(changed);
  expect(
    warnings.every(({ code, place }) => code === 'NOT_OURS' && place.part === 'P1' && place.measure === '1'),
  ).toBe(true);
  return { cleared, warnings: warnings.map(({ place, message }) => `${place.line}: ${message}`) };
}

describe('clear', () => {
  it('gives back the original, and a second time nothing more', () => {
    expect(clear(marked)).toMatchObject({ text: original, warnings: [] });
    expect(clear(original)).toEqual({ text: original, edits: [], warnings: [] });
  });

  it('puts replaced digits back, whatever they looked like', () => {
    const digits =
      '<fingering  font-size=\'9\' >4 ?> "ü" &#x31;</fingering ><!-- ? --><fingering>1<!--x--></fingering>';
    const text = score(note({ after: `<notations><technical>${digits}</technical></notations>` }));
    const replaced = mark(text, { ...MARKS, replaceDigits: true });
    expect(read(replaced).score.parts[0]?.notes[0]?.digits.map(({ finger }) => finger)).toEqual([3, 4]);
    expect(clear(replaced)).toMatchObject({ text, warnings: [] });
  });

  it('takes out an alternate digit of version 0.2.0, unless somebody has made it a plain one', () => {
    const own = '<fingering>2</fingering>';
    const text = score(note({ after: `<notations><technical>${own}</technical></notations>` }));
    const ours = '<?handline digit A3?><fingering placement="above" alternate="yes">3</fingering>';
    const both = text.replace(own, own + ours);
    expect(clear(both)).toMatchObject({ text, warnings: [] });
    const { cleared, warnings } = clearChanged(' alternate="yes"', '', both);
    expect(cleared).toContain(`${own}<fingering placement="above">3</fingering>`);
    expect(warnings).toEqual([expect.stringMatching(/a digit has been changed since we wrote it/)]);
  });

  it('leaves a digit that the user has corrected as the user’s own', () => {
    const { cleared, warnings } = clearChanged('>3-4</fingering>', '>2</fingering>');
    expect(warnings).toEqual([
      expect.stringMatching(
        /^\d+: a digit has been changed since we wrote it; it was left as the user's own$/,
      ),
    ]);
    const { score, elements } = read(cleared);
    expect(score.parts[0]?.notes[0]?.digits).toMatchObject([{ finger: 2 }]);
    expect(elements[0]![0]!.children.flatMap(fingeringsIn)).toHaveLength(1);
    expect(cleared).not.toContain('handline');
    expect(clear(cleared)).toEqual({ text: cleared, edits: [], warnings: [] });
    expect(clear(mark(cleared, { cues: MARKS.cues ?? [] })).text).toBe(cleared);
  });

  it('takes the digits but not what the user has put beside them', () => {
    const slur = '<slur type="start" number="1"/>';
    const { cleared, warnings } = clearChanged('</notations>', `${slur}</notations>`);
    expect(warnings).toEqual([]);
    expect(cleared).toContain(slur);
    expect(cleared).not.toContain('fingering');
    expect(cleared).not.toContain('handline');
  });

  it('keeps a slur in the notations of a score that was saved without instructions', () => {
    const bare = marked.replaceAll(/<\?handline[^?]*\?>/g, '');
    const { cleared } = clearChanged('</notations>', '<slur type="start" number="1"/></notations>', bare);
    expect(cleared).toMatch(/<notations>\s*<slur type="start" number="1"\/><\/notations>/);
    expect(cleared).not.toContain('fingering');
  });

  it('leaves a cue whose words the user has changed', () => {
    const { cleared, warnings } = clearChanged('in &amp; out</words>', 'in, slowly</words>');
    expect(warnings).toEqual([
      expect.stringMatching(/^\d+: the cue "in & out" has been changed since; what stands there was left$/),
    ]);
    expect(cleared).toContain('<words font-size="8">in, slowly</words>');
    expect(cleared).not.toContain('handline');
    expect(clear(cleared).edits).toEqual([]);
  });

  it('leaves a direction that has become more than our cue', () => {
    const words = 'in &amp; out</words>';
    const { cleared, warnings } = clearChanged(words, `${words}<words>dolce</words>`);
    expect(warnings).toHaveLength(1);
    expect(cleared).toContain('<words>dolce</words>');
    const bare = marked.replaceAll(/<\?handline[^?]*\?>/g, '');
    const saved = clearChanged(words, `${words}<words>dolce</words>`, bare);
    expect(saved.warnings).toEqual([
      expect.stringMatching(/the words "in & out dolce" hold a cue of ours but were changed/),
    ]);
    expect(saved.cleared).toContain('<words>dolce</words>');
  });

  it('takes an instruction without its mark away, with a warning', () => {
    const { cleared, warnings } = clearChanged(/<notations>[\s\S]*?<\/notations>/, '');
    expect(warnings).toHaveLength(1);
    expect(cleared).not.toContain('handline');
  });

  it('never loses a replaced digit that cannot go back', () => {
    const after = '<notations><technical><fingering>5</fingering></technical></notations>';
    const replaced = mark(score(note({ after })), { ...MARKS, replaceDigits: true });
    const kept = /<\?handline kept [^?]*\?>/.exec(replaced)?.[0] as string;
    const { cleared, warnings } = clearChanged(
      kept,
      '',
      replaced.replace('</attributes>', `</attributes>${kept}`),
    );
    expect(warnings).toEqual([]);
    expect(cleared).toContain('<technical><fingering>5</fingering></technical>');
    const moved = replaced.replace(kept, '').replace('</attributes>', `</attributes>${kept}`);
    expect(clear(moved).text).toContain(kept);
    expect(clear(moved).warnings).toMatchObject([{ code: 'NOT_OURS' }]);
  });

  it.each(['<fingering>5</note>', '<!DOCTYPE a>', '<a>&b;</a>', '</technical>', '<a/><b/>'])(
    'does not put back %s, which would make no score',
    (source) => {
      const after = '<notations><technical><fingering>5</fingering></technical></notations>';
      const replaced = mark(score(note({ after })), { ...MARKS, replaceDigits: true });
      const changed = replaced.replace(
        /<\?handline kept [^?]*\?>/,
        `<?handline kept ${encodeURIComponent(source)}?>`,
      );
      const { text, warnings } = clear(changed);
      expect(text).toContain('<?handline kept');
      expect(warnings).toMatchObject([{ code: 'NOT_OURS', message: /cannot go back here/ }]);
    },
  );

  it.each([
    '<?handline?>',
    '<?handline later 7?>',
    '<?handline digit 9?>',
    '<?handline digit x3?>',
    '<?handline digit 3-?>',
    '<?handline digit A6?>',
    '<?handline cue %zz?>',
    '<?handline kept %3Cx?>',
  ])('does not stumble over %s', (instruction) => {
    const text = original.replace('<voice>', `${instruction}<voice>`);
    const { text: cleared, warnings } = clear(text);
    expect(cleared).toBe(text);
    expect(warnings).toHaveLength(instruction === '<?handline?>' ? 0 : 1);
  });

  it.each([
    ['an instruction of another program', '<?layout <!-- <![CDATA[ ?>', ''],
    ['a comment', '<!-- <![CDATA[ <?x -->', ''],
    ['a CDATA section', '<!-- -->', '<![CDATA[<!-- <?x]]>'],
    [
      'an entity',
      '',
      '',
      `<!DOCTYPE score-partwise [<!ENTITY e "<!-- <?handline cue x?>"> <!ENTITY f '<![CDATA['>]>`,
    ],
  ])('is not misled by what %s quotes', (_, before, words, doctype = '') => {
    const quoting = `<direction><direction-type><words>a${words}</words></direction-type></direction>`;
    const text = score(`${before}${quoting}\n${nested()}`).replace(
      '<score-partwise',
      `${doctype}<score-partwise`,
    );
    const output = mark(text, MARKS);
    expect(output).toContain('<?handline digit');
    // A comment behind the marks, which what was opened before them could end with.
    const ended = (of: string) => of.replace('</measure>', '<!-- ]]> ?> --></measure>');
    expect(clear(ended(output))).toMatchObject({ text: ended(text), warnings: [] });
  });

  it('leaves the user’s digits and words in black alone', () => {
    const after = '<notations><technical><fingering color="#000000">3</fingering></technical></notations>';
    const words =
      '      <direction><direction-type><words font-family="handline" color="#000001">dolce</words></direction-type></direction>';
    const text = score(`${words}\n${note({ after })}`);
    expect(clear(text).text).toBe(text);
  });
});
