import type { LineReport, Warning } from '@handline/core';
import { describe, expect, test } from 'vitest';
import type { Outcome, Tally } from '../../packages/cli/src/outcome.js';
import { ClearTally } from '../../packages/cli/src/output/clear-summary.js';
import { MarkTally } from '../../packages/cli/src/output/mark-summary.js';
import { PageTally } from '../../packages/cli/src/output/page-summary.js';
import { type Language, SUMMARY_WORDS } from '../../packages/cli/src/output/words/wording.js';

const SCREEN = 24;

function told(tally: Tally, outcomes: readonly Outcome[]): string {
  for (const outcome of outcomes) tally.add(outcome);
  return tally.text();
}

const markSummary = (outcomes: readonly Outcome[]) => told(new MarkTally('en'), outcomes);
const clearSummary = (outcomes: readonly Outcome[]) => told(new ClearTally('en'), outcomes);

function line(part: string, hand: 'right' | 'left', values: Partial<LineReport> = {}): LineReport {
  return {
    part,
    hand,
    notes: 120,
    fingered: 118,
    kept: 0,
    cues: 9,
    crossings: 7,
    depthTravel: 1260,
    movement: 900,
    usage: 400,
    slices: [],
    findings: [],
    unreachable: [],
    hardest: ['12', '3', '40', '41'].map((measure) => ({ measure, movement: 9 })),
    ...values,
  };
}

function warning(code: Warning['code'], measure: string): Warning {
  return { code, message: 'no hand reaches this chord', place: { file: 'a.xml', part: 'P1', measure } };
}

function outcome(
  values: Partial<Outcome>,
  lines: readonly LineReport[] = [],
  warnings: readonly Warning[] = [],
): Outcome {
  return {
    input: 'a.xml',
    output: 'out/a.xml',
    status: 'written',
    changed: true,
    result: { warnings, report: { version: '1.0.0', lines, warnings, caution: 'Stop at pain.' } },
    ...values,
  };
}

describe('summary of mark', () => {
  test('doubts about the motion: their number and the first places, on one line', () => {
    const findings = (...measures: string[]) =>
      measures.map((measure) => ({ measure, beat: 1, message: 'm' }));
    const summary = (...list: string[]) =>
      markSummary([outcome({}, [line('P1', 'right', { findings: findings(...list) })])]);
    expect(summary()).not.toContain('doubt');
    expect(summary('4')).toContain('\n1 doubt about the motion: right hand measure 4 (--json tells why)\n');
    expect(summary('4', '4', '5', '6', '7')).toContain(
      '\n5 doubts about the motion: right hand measure 4, right hand measure 5, right hand measure 6, ... (--json',
    );
  });

  test('one score: a column a hand, where it lies, the hardest measures, the caution', () => {
    const text = markSummary([
      outcome({}, [line('P1', 'right'), line('P1', 'left', { depthTravel: 84, hardest: [] })]),
    ]);
    expect(text.split('\n')).toEqual([
      'a.xml -> out/a.xml',
      '',
      '            notes fingered  cues  crossings  forearm in and out  hardest measures',
      'right hand      118 of 120     9          7               1.3 m         12, 3, 40',
      'left hand       118 of 120     9          7               0.1 m                 -',
      '',
      'Stop at pain.',
      '',
    ]);
  });

  test('digits that the file had count, and are told apart', () => {
    const text = markSummary([outcome({}, [line('P1', 'right', { fingered: 119, kept: 1 })])]);
    expect(text).toMatch(/^right hand {2}120 of 120 \(1 from the file\) /m);
    const two = [outcome({}, [line('P1', 'right', { kept: 2 })]), outcome({}, [line('P1', 'right')])];
    expect(markSummary(two)).toContain('238 of 240 (2 from the file) notes fingered');
  });

  test('chords that the hands share are counted once, also where one hand is marked', () => {
    const shared = (measure: string, takenBy: 'right' | 'left') =>
      ({ measure, beat: 1, takenBy, keys: [60], message: '' }) as const;
    const both = [shared('3', 'left'), shared('4', 'right')];
    const lines = [line('P1', 'right', { shared: both }), line('P1', 'left', { shared: both })];
    const told = '2 chords shared between the hands: measure 4, measure 3 (--json tells how)';
    expect(markSummary([outcome({}, lines)])).toContain(told);
    expect(markSummary([outcome({}, lines.slice(0, 1))])).toContain('2 chords shared');
    const one = [line('P1', 'left', { shared: both.slice(0, 1) })];
    expect(markSummary([outcome({}, one)])).toContain('1 chord shared between the hands: measure 3 (');
  });

  test('what is one of its kind is told in the singular, in five languages', () => {
    const one = [line('P1', 'right', { fingered: 1, notes: 1, kept: 0, cues: 1, crossings: 1 })];
    const several = [outcome({}, one), outcome({ input: 'b.xml', status: 'unchanged' }, [])];
    const forms = {
      en: ['out/a.xml: 1 note fingered, 1 cue', '1 of 1 note fingered, 1 cue, 1 crossing,'],
      de: [
        'out/a.xml: 1 Note mit Ziffer, 1 Hinweis',
        '1 von 1 Note mit Ziffer, 1 Hinweis, 1 Unter-/Übersatz,',
      ],
      fr: ['out/a.xml : 1 note doigtée, 1 indication', '1 sur 1 note doigtée, 1 indication, 1 passage,'],
      es: [
        'out/a.xml: 1 nota con digitación, 1 indicación',
        '1 de 1 nota con digitación, 1 indicación, 1 paso,',
      ],
      it: [
        'out/a.xml: 1 nota diteggiata, 1 indicazione',
        '1 di 1 nota diteggiata, 1 indicazione, 1 passaggio,',
      ],
    } as const;
    for (const language of Object.keys(forms) as (keyof typeof forms)[]) {
      const text = told(new MarkTally(language), several);
      for (const form of forms[language]) expect(text).toContain(form);
    }
  });

  test('a report that is written to a file is not offered again', () => {
    const warnings = ['1', '2', '3', '4'].map((measure) => warning('UNPLAYABLE', measure));
    const findings = [{ measure: '4', beat: 1, message: 'm' }];
    const one = [outcome({}, [line('P1', 'right', { findings })], warnings)];
    const both = [...one, outcome({ input: 'b.xml' })];
    expect(markSummary(both)).toMatch(/4 UNPLAYABLE; all of them with --report FILE\.jsonl\):/);
    for (const outcomes of [one, both]) {
      const text = told(new MarkTally('en', true), outcomes);
      expect(text).not.toContain('--');
      expect(text).toContain('more (UNPLAYABLE)');
    }
    expect(told(new ClearTally('en', true), both)).not.toContain('--report');
  });

  test('two pianos: the rows name the part', () => {
    const text = markSummary([outcome({}, [line('P1', 'right'), line('P2', 'left')])]);
    expect(text).toMatch(/^P1, right hand .*\nP2, left hand /m);
  });

  test('an orchestra of pianos stays on one screen', () => {
    const lines = Array.from({ length: 40 }, (_, index) => line(`P${index}`, 'right'));
    const text = markSummary([outcome({}, lines, [warning('UNPLAYABLE', '1')])]);
    expect(text.split('\n').length).toBeLessThanOrEqual(SCREEN);
    expect(text).toContain('... and 28 more');
  });

  test('warnings are grouped, the first of each kind shown, the rest counted', () => {
    const many = Array.from({ length: 40 }, (_, index) => warning('UNPLAYABLE', `${index + 1}`));
    const text = markSummary([outcome({}, [line('P1', 'right')], [...many, warning('HAND_MOVED', '7')])]);
    expect(text.split('\n').slice(5, 10)).toEqual([
      'Warnings (41; all of them with --json):',
      '  part P1, measure 1: no hand reaches this chord (UNPLAYABLE)',
      '  part P1, measure 2: no hand reaches this chord (UNPLAYABLE)',
      '  ... and 38 more (UNPLAYABLE)',
      '  part P1, measure 7: no hand reaches this chord (HAND_MOVED)',
    ]);
    expect(text.split('\n').length).toBeLessThanOrEqual(SCREEN);
  });

  test('sixty scores stay on one screen, with totals over all of them', () => {
    const outcomes = Array.from({ length: 60 }, (_, index) =>
      outcome(
        { input: `${index}.xml`, output: `out/${index}.xml` },
        [line('P1', 'right')],
        [warning('UNPLAYABLE', '1')],
      ),
    );
    const refused = { input: 'bad.xml', status: 'refused', error: { message: 'bad.xml: is empty' } } as const;
    const text = markSummary([...outcomes, refused]);
    expect(text.split('\n').length).toBeLessThanOrEqual(SCREEN);
    expect(text.split('\n').slice(0, 3)).toEqual([
      'Not done (1 refused):',
      '  bad.xml: is empty',
      'Warnings (60 in 60 scores: 60 UNPLAYABLE; all of them with --report FILE.jsonl):',
    ]);
    expect(text).toContain('\nout/0.xml: 118 notes fingered, 9 cues\n');
    expect(text).toContain('... and 52 more');
    expect(text).toContain('60 of 61 scores: 7080 of 7200 notes fingered, 540 cues, 420 crossings');
    expect(text).toContain('0.xml: part P1, measure 1: no hand reaches this chord (UNPLAYABLE)');
    expect(text).toContain('... and 58 more (UNPLAYABLE)');
  });

  test('nothing done, nothing said', () => {
    expect(markSummary([outcome({ status: 'refused' })])).toBe('');
    expect(markSummary([outcome({ status: 'refused' }), outcome({ status: 'unwritten' })])).toBe('');
  });

  test('names from files cannot steer the terminal', () => {
    const text = markSummary([
      outcome({ input: 'a\u001b[2Jb\n' }, [line('P1\u0007', 'right'), line('P2', 'right')]),
    ]);
    for (const control of ['\u0007', '\u001b']) expect(text).not.toContain(control);
  });
});

describe('summary of clear', () => {
  test('says how many held marks', () => {
    expect(
      clearSummary([outcome({}), outcome({ changed: false, input: 'b.xml', output: 'out/b.xml' })]),
    ).toBe('a.xml -> out/a.xml\nb.xml -> out/b.xml\nMarks of Handline removed from 1 of 2 scores.\n');
    expect(clearSummary([outcome({ changed: false })])).toContain('No marks of Handline were found.');
    expect(clearSummary([outcome({ status: 'differs', compared: 'other' })])).toContain(
      'Marks of Handline would be removed from 1 of 1 score.',
    );
  });
});

describe('in other languages', () => {
  const gapsIn = (text: string) => (text.match(/\{\w+\}/g) ?? []).toSorted();
  const flat = (value: unknown): string[] =>
    typeof value === 'string' ? [value] : Object.values(value as object).flatMap(flat);

  test.each(Object.keys(SUMMARY_WORDS) as Language[])(
    '%s has every text, with all that is filled in',
    (language) => {
      const [own, english] = [flat(SUMMARY_WORDS[language]), flat(SUMMARY_WORDS.en)];
      expect(own.map(gapsIn)).toEqual(english.map(gapsIn));
      const alike = own.filter(
        (text, at) => text === english[at] && /\p{L}{3}/u.test(text.replaceAll(/\{\w+\}/g, '')),
      );
      // The Italian name of standard output is the English one.
      expect(alike.filter((text) => text !== 'standard output' && language !== 'en')).toEqual([]);
    },
  );

  test('no English is left in a German summary', () => {
    const findings = [{ measure: '3', beat: 1, message: 'm' }];
    const lines = [line('P1', 'right', { findings, kept: 2 }), line('P1', 'left')];
    const summary = told(new MarkTally('de'), [outcome({}, lines, [warning('UNPLAYABLE', '8')])]);
    expect(summary).toMatch(/rechte Hand +120 von 120 \(2 aus der Datei\) +9 +7 +1,3 m +12, 3, 40/);
    expect(summary).toContain('1 Zweifel an der Bewegung: rechte Hand Takt 3 (--json sagt, warum)');
    expect(summary).toContain('Warnungen (1):\n  Stimme P1, Takt 8: no hand reaches');
    expect(summary.replace('no hand reaches', '')).not.toMatch(/\b(hand|measures?|cues|notes|of|part)\b/);
    const several = told(new MarkTally('de'), [
      outcome({}, lines),
      outcome({ input: 'b.xml', output: 'b.xml', status: 'unchanged', compared: 'same' }, lines),
    ]);
    expect(several).toContain('2 von 2 Stücken: 476 von 480 (4 aus der Datei) Noten');
    expect(several).toContain(
      'b.xml: das Ergebnis wäre die Datei, wie sie ist: 238 Noten mit Ziffer, 18 Hinweise',
    );
  });

  test('a page is told of with the caution of its language, and clear speaks it as well', () => {
    expect(told(new ClearTally('de'), [outcome({})])).toMatch(/\nZeichen .* aus 1 von 1 Stück entfernt\.\n$/);
    expect(told(new PageTally('de'), [outcome({})])).toMatch(
      /^a\.xml -> out\/a\.xml\n\nFingersatz und Hinweise sind Vorschläge/,
    );
  });
});
