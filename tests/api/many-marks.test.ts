import { expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { MarkList } from '#core/pipeline/marks/choose-marks.js';
import { analyse } from '#core/pipeline/plan.js';
import { selectMeasures } from '#core/pipeline/selection.js';
import { settingsOf } from '#core/pipeline/settings.js';
import { readText } from '../musicxml/read-source.js';

/** Above what a call takes as arguments: about 120,000. */
const MANY = 200_000;

const NOTE = '<note><pitch><step>C</step><octave>5</octave></pitch><duration>1</duration></note>';
const TEXT = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>1</divisions></attributes>${NOTE}</measure></part></score-partwise>`;

it('one hand may have any number of digits and cues', () => {
  const settings = settingsOf({});
  const { score } = readText(TEXT);
  const [own] = analyse(score, buildLines(score, settings).lines, settings);
  const [slice, fingers] = [own!.line.slices[0]!, own!.fingering.slices[0]!];
  const cue = { slice: 0, keys: ['in'], text: 'in', end: 0, dashes: false } as const;
  const long = {
    ...own!,
    line: { ...own!.line, slices: Array.from({ length: MANY }, () => slice) },
    fingering: { ...own!.fingering, slices: Array.from({ length: MANY }, () => fingers) },
    cues: Array.from({ length: MANY }, () => cue),
  };
  const list = new MarkList(score, settings, () => selectMeasures(score.parts[0]!.measures, settings));
  list.add(long);
  const marks = list.marks();
  expect(marks.digits).toHaveLength(MANY);
  expect(marks.cues).toHaveLength(MANY);
});
