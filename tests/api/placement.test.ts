import { annotate } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, backup, note, onePart } from '../musicxml/read-source.js';

/** Where the digit of every note stands, in document order. */
function placements(score: string): string[] {
  const { output } = annotate(score, { layers: [] });
  return [...output.matchAll(/<fingering[^>]*placement="(above|below)"/g)].map(([, place]) => place!);
}

const upper = (pitch: string) => note(pitch, 16);
const second = (pitch: string) => note(pitch, 16, { voice: '2' });
const lower = (pitch: string, voice = '5') => note(pitch, 16, { voice, staff: 2 });
const measure = (...voices: string[]) => `${attributes()}${voices.join(backup(16))}`;

describe('digits stand', () => {
  it('above for the right hand and below for the left', () => {
    expect(placements(onePart([measure(upper('C5'), lower('C3'))]))).toEqual(['above', 'below']);
  });

  it('on the inner side for the inner voice of two on one staff', () => {
    const two = measure(upper('G5'), second('C5'), lower('C3'), lower('G3', '6'));
    expect(placements(onePart([two]))).toEqual(['above', 'below', 'below', 'above']);
  });

  it('on the hand’s own side again in the next measure with one voice', () => {
    const two = measure(upper('G5'), second('C5'), lower('C3'));
    const one = `${upper('A5')}${backup(16)}${lower('D3')}`;
    expect(placements(onePart([two, one]))).toEqual(['above', 'below', 'below', 'above', 'below']);
  });

  it('on the other sides where two voices cross, as long as they do', () => {
    const half = (pitch: string, voice: string, staff: number) => note(pitch, 8, { voice, staff });
    const crossing = measure(
      half('G5', '1', 1) + half('C5', '1', 1),
      half('C5', '2', 1) + half('D5', '2', 1),
      half('C3', '5', 2) + half('G3', '5', 2),
      half('G3', '6', 2) + half('F3', '6', 2),
    );
    expect(placements(onePart([crossing]))).toEqual([
      ...['above', 'below', 'below', 'above'],
      ...['below', 'above', 'above', 'below'],
    ]);
  });

  it('on the same side for all notes of a chord in one voice', () => {
    const chord = `${upper('C5')}${note('E5', 16, { lead: '<chord/>' })}`;
    expect(placements(onePart([measure(chord, lower('C3'))]))).toEqual(['above', 'above', 'below']);
  });
});
