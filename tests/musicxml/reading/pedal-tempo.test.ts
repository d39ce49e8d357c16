import { describe, expect, it } from 'vitest';
import { toNumber } from '#core/numeric/fraction.js';
import { attributes, note, onePart, readText } from '../read-source.js';

describe('the damper pedal', () => {
  const spans = (...marks: readonly string[]): string => {
    const content = marks.map((mark) => mark + note('C4', 4)).join('');
    return readText(onePart([attributes() + content]))
      .score.parts[0]!.pedal.map(({ from, to }) => `${toNumber(from)}-${toNumber(to)}`)
      .join(' ');
  };
  const sound = (what: string) => `<sound ${what}/>`;
  const pedal = (type: string) =>
    `<direction><direction-type><pedal type="${type}"/></direction-type></direction>`;

  it.each([
    ['tempo="100"', ''],
    ['dynamics="70"', ''],
    ['soft-pedal="yes"', ''],
    ['damper-pedal="no"', ''],
    ['damper-pedal="0"', ''],
    ['damper-pedal="yes"', '0-3'],
    ['damper-pedal="60"', '0-3'],
  ])('<sound %s> holds "%s"', (what, expected) => {
    expect(spans(sound(what), '', '')).toBe(expected);
  });

  it.each([
    ['start', 'stop', '0-1'],
    ['resume', 'stop', '0-1'],
    ['start', 'discontinue', '0-1'],
    ['start', 'change', '0-1 1-3'],
    ['start', 'continue', '0-3'],
    ['sostenuto', 'stop', ''],
    ['stop', 'stop', ''],
  ])('pedal "%s" and then "%s": %s', (one, other, expected) => {
    expect(spans(pedal(one), pedal(other), '')).toBe(expected);
  });

  it('sounds rather than what is printed', () => {
    const both = pedal('start').replace('</direction>', '<sound damper-pedal="no"/></direction>');
    expect(spans(both, '', '')).toBe('');
  });

  it('stays down when it is pressed twice', () => {
    expect(spans(pedal('start'), pedal('start'), pedal('stop'))).toBe('0-2');
  });
});

describe('tempo marks', () => {
  const tempi = (...marks: readonly string[]): readonly number[] => {
    const text = onePart([attributes() + marks.map((mark) => mark + note('C4', 4)).join('')]);
    return readText(text).score.tempo.map(({ quartersPerMinute }) => quartersPerMinute);
  };
  const metronome = (unit: string, perMinute: string) =>
    `<direction><direction-type><metronome>${unit}<per-minute>${perMinute}</per-minute></metronome></direction-type></direction>`;
  const unit = (type: string, dots = 0) => `<beat-unit>${type}</beat-unit>${'<beat-unit-dot/>'.repeat(dots)}`;

  it.each([
    ['3.9', []],
    ['4', [4]],
    ['1000', [1000]],
    ['1000.1', []],
    ['fast', []],
    ['-60', []],
  ])('<sound tempo="%s"> is %s', (value, expected) => {
    expect(tempi(`<sound tempo="${value}"/>`)).toEqual(expected);
  });

  it.each([
    [unit('quarter'), '90', [90]],
    [unit('half'), '60', [120]],
    [unit('eighth'), '120', [60]],
    [unit('quarter', 1), '60', [90]],
    [unit('quarter', 2), '60', [105]],
    [unit('quarter'), 'ca. 72', [72]],
    [unit('quarter'), '112-120', [112]],
    [unit('quarter'), '72.5', [72.5]],
    [unit('quarter'), 'quick', []],
    [unit('crotchet'), '90', []],
    ['', '90', []],
  ])('%s = %s: %s quarter notes a minute', (beat, perMinute, expected) => {
    expect(tempi(metronome(beat, perMinute))).toEqual(expected);
  });

  it('are in the order of time, whichever part or offset they come from, the last one at a place counting', () => {
    const later = (tempo: number, offset: number) =>
      `<direction><direction-type><words/></direction-type><offset>${offset}</offset><sound tempo="${tempo}"/></direction>`;
    expect(tempi(later(90, 8), '<sound tempo="80"/>', later(70, -4))).toEqual([70, 90]);
    expect(tempi(later(90, 8), '<sound tempo="80"/>', later(70, 0))).toEqual([80, 70]);
  });

  it('sound rather than what is printed', () => {
    const both = metronome(unit('quarter'), '90').replace('</direction>', '<sound tempo="80"/></direction>');
    expect(tempi(both)).toEqual([80]);
  });
});
