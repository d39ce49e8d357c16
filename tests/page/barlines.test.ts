import { describe, expect, it } from 'vitest';
import type { CueMark } from '#core/musicxml/marks/edit.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { clear, mark } from '../musicxml/write-source.js';
import { drawnPages, measuresBySystem } from './drawn.js';
import { faultsOf } from './faults.js';

const BLANKS = '\u2002\u00a0';
const EIGHTHS = 8;
const MEASURES = 24;
const STEPS = 'CDEFGABA';

/** Eighth notes on one staff, as many voices as there are, one behind the other in the file. */
function eighths(measures: number, voices = 1): string {
  const notes = (voice: number): string =>
    Array.from(
      STEPS,
      (step) =>
        `<note><pitch><step>${step}</step><octave>${6 - voice}</octave></pitch><duration>1</duration><voice>${voice}</voice><type>eighth</type></note>`,
    ).join('\n');
  const backup = '\n<backup><duration>8</duration></backup>\n';
  const content = Array.from({ length: voices }, (_, nth) => notes(nth + 1)).join(backup);
  const attributes =
    '<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>\n';
  const all = Array.from(
    { length: measures },
    (_, nth) => `<measure number="${nth + 1}">\n${nth === 0 ? attributes : ''}${content}\n</measure>`,
  );
  return `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name/></score-part></part-list>
<part id="P1">
${all.join('\n')}
</part>
</score-partwise>
`;
}

const cue = (note: number, text: string): CueMark => ({
  part: 0,
  note,
  text: text
    .split('\n')
    .map((line) => line + BLANKS)
    .join('\n'),
  placement: 'above',
  inRows: true,
});

/** The words that were written, with the blanks in front of them and behind, and whether they are centred. */
function written(text: string): string[] {
  return parseTree(text, DEFAULT_LIMITS)
    .within('words')
    .map((words) => `${words.text}|${words.attribute('halign') ?? ''}`);
}

describe('at barlines', () => {
  it.each(['out', 'thumb', 'heraus', 'hinein', 'sortir', 'forearm', 'above', 'further\nin'])(
    'verovio breaks systems as without texts, though each measure ends with one: %s',
    (text) => {
      const score = eighths(MEASURES);
      const last = Array.from({ length: MEASURES }, (_, measure) => EIGHTHS * measure + EIGHTHS - 1);
      const marked = mark(score, { cues: last.map((note) => cue(note, text)) });
      const systems = measuresBySystem(score);
      expect(systems.length).toBeGreaterThan(4);
      expect(measuresBySystem(marked)).toEqual(systems);
      expect(clear(marked)).toMatchObject({ text: score, warnings: [] });
    },
  );

  it('a text has no blanks where it would reach over one with them, and the next has one in front', () => {
    const near = [cue(7, 'over'), cue(8, 'out')];
    expect(written(mark(eighths(3), { cues: near }))).toEqual(['over|', `\u00a0out${BLANKS}|`]);
    const far = [cue(7, 'over'), cue(11, 'out')];
    expect(written(mark(eighths(3), { cues: far }))).toEqual(['over|', `out${BLANKS}|`]);
  });

  it('a text that would reach over one without them stands with its middle at the note', () => {
    const texts = [cue(7, 'forearm\nout'), cue(8, 'in')];
    expect(written(mark(eighths(3), { cues: texts }))).toEqual(['forearm\nout|center', `\u00a0in${BLANKS}|`]);
  });

  it('other texts keep their blanks: short ones, those behind which the measure has another, those of the last measure', () => {
    for (const texts of [[cue(7, 'in')], [cue(2, 'forearm')], [cue(23, 'forearm')]])
      expect(written(mark(eighths(3), { cues: texts }))).toEqual([`${texts[0]!.text}|`]);
    const [first] = written(mark(eighths(3), { cues: [cue(6, 'forearm out'), cue(7, 'in')] }));
    expect(first).toBe(`forearm out${BLANKS}|`);
  });
});

describe('where verovio would push a text on another', () => {
  const faults = (text: string) => {
    const { onOurs, near } = faultsOf(drawnPages(text));
    return [...onOurs, ...near];
  };

  const placed = (score: string, texts: readonly CueMark[]) =>
    mark(score, { cues: texts.map((one) => ({ ...one, inRows: false })) });
  const EMPTY = /<words[^>]*>[^<]*\n\u00a0<\/words>|&#10;\u00a0/;

  it('one of a second voice between two of the first has an empty line', () => {
    const texts = [cue(1, 'forearm'), cue(3, 'forearm'), cue(EIGHTHS + 2, 'forearm')];
    const text = placed(eighths(2, 2), texts);
    expect(faults(text)).toEqual([]);
    expect(text).toMatch(EMPTY);
  });

  it('one behind three, of which the second is moved over the first and the third slips under it, has lines for both', () => {
    const texts = [cue(0, 'thumb\nout'), cue(2, 'forearm'), cue(3, 'out'), cue(4, 'in')];
    const text = placed(eighths(2), texts);
    expect(faults(text)).toEqual([]);
    expect(text).toMatch(EMPTY);
  });

  it('others have none', () => {
    expect(placed(eighths(2), [cue(0, 'thumb'), cue(1, 'forearm'), cue(2, 'out')])).not.toMatch(EMPTY);
  });
});
