import { readFileSync } from 'node:fs';
import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';
import { beforeAll, describe, expect, it } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { writtenQuarters } from '#core/musicxml/read/elements/duration.js';
import type { ReadResult } from '#core/musicxml/read/score.js';
import { toNumber } from '#core/numeric/fraction.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import type { Part } from '#core/score/model.js';
import { bytesOf, READ_FIXTURES, readText } from '../musicxml/read-source.js';
import { editions } from '../scores.js';

/** A key going down at a time in quarter notes, as played with repeats; tied continuations count. */
interface Onset {
  readonly key: number;
  readonly quarters: number;
  /** Next to a grace note, or in a rolled chord: verovio moves such onsets. */
  readonly loose: boolean;
}

const byKey = (a: Onset, b: Onset) => a.key - b.key || a.quarters - b.quarters;

function ours(result: ReadResult): Onset[] {
  return result.score.parts.flatMap(playedOnsets).sort(byKey);
}

function playedOnsets(part: Part): Onset[] {
  const loose = new Set<number>();
  for (const { grace, arpeggiate, onset } of part.notes)
    if (grace >= 0 || arpeggiate) loose.add(toNumber(onset));
  const byMeasure = new Map<number, Onset[]>();
  for (const note of part.notes) {
    const onset = { key: note.key, quarters: toNumber(note.onset), loose: loose.has(toNumber(note.onset)) };
    byMeasure.set(note.measure, [...(byMeasure.get(note.measure) ?? []), onset]);
  }
  let played = 0;
  return part.playingOrder.flatMap((stretch) => {
    const [from, to] = [toNumber(stretch.from), toNumber(stretch.to)];
    const measure = part.measures[stretch.measure]!;
    // Graces at the end of a measure lie on the start of the next.
    const end = toNumber(measure.start) + toNumber(measure.length);
    const shift = played - from;
    played += to - from;
    return (byMeasure.get(stretch.measure) ?? [])
      .filter(({ quarters }) => quarters >= from && (quarters < to || to === end))
      .map((onset) => ({ ...onset, quarters: onset.quarters + shift }));
  });
}

/** Verovio counts time by written types; where these contradict the durations, its times are not comparable. */
function typesAgree({ measureElements }: ReadResult): boolean {
  return measureElements.every((part) => {
    let divisions = 1;
    return part.every((measure) =>
      measure.children.every((element) => {
        if (element.name === 'attributes') divisions = Number(element.textOf('divisions') ?? divisions);
        if (element.name !== 'note' || element.child('grace') !== undefined) return true;
        const quarters = Number(element.textOf('duration')) / divisions;
        return Math.abs((writtenQuarters(element) ?? -1) - quarters) < 1e-6;
      }),
    );
  });
}

let outside: (text: string) => Onset[];

beforeAll(async () => {
  const module = await createModule();
  enableLog(LOG_OFF, module);
  const toolkit = new VerovioToolkit(module);
  toolkit.setOptions({ breaks: 'none', header: 'none', footer: 'none' });
  outside = (text) => {
    if (!toolkit.loadData(text)) throw new Error('verovio cannot read the score');
    const onsets = toolkit.renderToTimemap({}).flatMap(({ qstamp, on }) =>
      (on ?? []).map((id) => ({
        key: toolkit.getMIDIValuesForElement(id).pitch,
        quarters: qstamp,
        loose: false,
      })),
    );
    return onsets.sort(byKey);
  };
});

/** The same keys, and, where times are comparable, the same onsets. */
function compare(result: ReadResult, theirs: readonly Onset[]): 'times' | 'keys' {
  const own = ours(result);
  expect(theirs.map(({ key }) => key)).toEqual(own.map(({ key }) => key));
  if (!typesAgree(result)) return 'keys';
  own.forEach((onset, at) => {
    if (!onset.loose) expect(theirs[at]?.quarters).toBeCloseTo(onset.quarters, 3);
  });
  return 'times';
}

describe('the reading against verovio', () => {
  // Verovio reads no score-timewise and nothing of `imperfect`; it leaves written pitches untransposed.
  const LEFT_OUT = ['timewise.musicxml', 'imperfect.musicxml', 'transposed.musicxml'];

  it.each(READ_FIXTURES.filter((name) => !LEFT_OUT.includes(name)))('%s', (name) => {
    const { text } = decode(bytesOf(name), DEFAULT_LIMITS);
    expect(compare(readText(text), outside(text))).toBe('times');
  });

  it('notes under an octave shift sound as their pitch says', () => {
    const { text } = decode(bytesOf('transposed.musicxml'), DEFAULT_LIMITS);
    const bare = text
      .replace(/<transpose>.*?<\/transpose>/, '')
      .replace(/<score-part id="P3">.*\n|<part id="P3">[\s\S]*?<\/part>/g, '');
    expect(bare).toContain('octave-shift');
    expect(compare(readText(bare), outside(bare))).toBe('times');
  });

  it('editions', () => {
    const paths = editions(2, 0.9);
    let [notes, timed] = [0, 0];
    for (const path of paths) {
      const text = readFileSync(path, 'utf8');
      const result = readText(text, path);
      notes += ours(result).length;
      if (compare(result, outside(text)) === 'times') timed += 1;
    }
    console.log(
      `verovio: same keys in ${paths.length} editions (${notes} notes), same onsets in the ${timed} with sound types`,
    );
    expect(timed).toBeGreaterThan(paths.length / 3);
  });
});
