import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { buildLines } from '#core/hands/build.js';
import { attributes, note, readText } from '../musicxml/read-source.js';

interface Sketch {
  readonly names: readonly string[];
  readonly group?: string;
  readonly symbol?: string;
  readonly staves?: number;
}

/** Parts one after another in one group, a note each. */
function score({ names, group = '', symbol = 'brace', staves = 1 }: Sketch): string {
  const parts = names.map(
    (name, at) => `<score-part id="P${at}"><part-name>${name}</part-name></score-part>`,
  );
  const music = names.map(
    (_, at) =>
      `<part id="P${at}"><measure number="1">${attributes(4, staves)}${note(`C${5 - (at % 2)}`, 16)}</measure></part>`,
  );
  const title = group === '' ? '' : `<group-name>${group}</group-name>`;
  const start = `<part-group type="start" number="1">${title}<group-symbol>${symbol}</group-symbol></part-group>`;
  return `<score-partwise version="4.0"><part-list>${start}${parts.join('')}<part-group type="stop" number="1"/></part-list>${music.join('')}</score-partwise>`;
}

function hands(sketch: Sketch): string {
  const { score: read } = readText(score(sketch));
  return buildLines(read)
    .lines.map(({ part, hand }) => `${part} ${hand}`)
    .join(', ');
}

describe('two parts of one staff', () => {
  it('braced as one piano are its right and left hand in their order, whatever their clefs', () => {
    expect(hands({ names: ['Piano', 'Piano'] })).toBe('0 right, 1 left');
    expect(hands({ names: ['', ''], group: 'Klavier' })).toBe('0 right, 1 left');
    expect(hands({ names: ['Oben', 'Unten'], group: 'Klavier' })).toBe('0 right, 1 left');
  });

  it('go by their own names first', () => {
    expect(hands({ names: ['Left hand', 'Right hand'], group: 'Piano' })).toBe('0 left, 1 right');
  });

  it('are no piano by the brace alone, and two by the clef without it', () => {
    expect(hands({ names: ['', ''] })).toBe('');
    expect(hands({ names: ['Violin I', 'Violin II'], group: 'Piano quintet' })).toBe('');
    expect(hands({ names: ['Piano', 'Piano'], symbol: 'bracket' })).toBe('0 right, 1 right');
    expect(hands({ names: ['Piano', 'Piano', 'Piano'] })).toBe('0 right, 1 right, 2 right');
    expect(hands({ names: ['Piano', 'Piano'], staves: 2 })).toBe('0 right, 1 right');
  });

  it('are marked above and below, and cleared', () => {
    const text = score({ names: ['Piano', 'Piano'] });
    const { output, report } = annotate(text);
    expect(report.lines.map(({ part, hand, fingered }) => [part, hand, fingered])).toEqual([
      ['P0', 'right', 1],
      ['P1', 'left', 1],
    ]);
    expect(output.match(/(?<=<fingering )placement="(?:above|below)"/g)).toEqual([
      'placement="above"',
      'placement="below"',
    ]);
    expect(clear(output).output).toBe(text);
  });
});
