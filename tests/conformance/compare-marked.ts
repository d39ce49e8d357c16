import { readFileSync } from 'node:fs';
import { annotate } from '@handline/core';
import { expect } from 'vitest';
import { decode } from '#core/musicxml/bytes/decode.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { digitsInPrint } from '../api/in-print.js';
import type { OutsideView } from './outside-reader.js';

export function textOf(path: string): string {
  return decode(new Uint8Array(readFileSync(path)), DEFAULT_LIMITS).text;
}

/**
 * Marks a score; the reader must find the same music and exactly as much more as we say that we wrote.
 * @param beyond digits that the reader cannot see where they stand
 */
export function compareMarked(
  read: (text: string) => OutsideView,
  text: string,
  beyond = 0,
): { digits: number; words: number } {
  const { output, report } = annotate(text, { density: 'every' });
  const [before, after] = [read(text), read(output)];
  expect(after.music).toBe(before.music);
  const sum = (value: (line: (typeof report.lines)[number]) => number) =>
    report.lines.reduce((total, line) => total + value(line), 0);
  const digits = after.digits.length - before.digits.length;
  expect(digits).toBe(digitsInPrint(report) - beyond);
  const words = after.words.length - before.words.length;
  const cues = report.lines.flatMap(({ slices }) => slices.flatMap(({ cue }) => cue ?? []));
  expect(cues).toHaveLength(sum((line) => line.cues));
  expect(words).toBe(cues.length);
  return { digits, words };
}
