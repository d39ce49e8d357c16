import { setDigits } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { digitsOf, isElement, noteAround, parsedText, saysDigit } from '#core/musicxml/marks/clear/match.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { attributes, note, onePart } from '../read-source.js';

const root = (text: string) => parseTree(text, DEFAULT_LIMITS);

describe('whether a digit still says what was written', () => {
  it.each([
    ['<fingering>3</fingering>', '3', true],
    ['<fingering placement="above"> 3 </fingering>', '3', true],
    ['<fingering>4</fingering>', '3', false],
    ['<fingering substitution="yes">3</fingering>', '3', false],
    ['<fingering substitution="no">3</fingering>', '3', true],
    ['<fingering alternate="yes">3</fingering>', '3', false],
    ['<fingering alternate="yes">3</fingering>', 'A3', true],
    ['<fingering>3</fingering>', 'A3', false],
    ['<fingering alternate="yes">4</fingering>', 'A3', false],
  ])('%s as %s: %s', (text, written, same) => {
    expect(saysDigit(root(text), written)).toBe(same);
  });
});

it('every kind of line end is one line break', () => {
  const words = root('<words>a&#13;&#10;b&#13;c&#10;d</words>');
  expect(parsedText(words)).toBe('a\nb\nc\nd');
});

it('finds the digits of a note in its notations, and the note from within', () => {
  const own = root(
    '<note><pitch/><notations><technical><string>2</string><fingering>1</fingering></technical></notations>' +
      '<notations><technical><fingering>4</fingering></technical></notations></note>',
  );
  expect(digitsOf(own).map(({ text }) => text)).toEqual(['1', '4']);
  expect(digitsOf(own).map((digit) => noteAround(digit) === own)).toEqual([true, true]);
  expect(noteAround(root('<direction><words/></direction>').child('words')!)).toBeUndefined();
});

it.each([
  ['<fingering>3</fingering>', true],
  ['x<fingering>3</fingering>', false],
  ['<!-- <fingering/> -->', false],
  ['<?handline digit 3?>', false],
  ['<fingering>3', false],
  ['<fingering>3</other>', false],
  ['', false],
])('%s can go back into a score: %s', (text, fits) => {
  expect(isElement(text)).toBe(fits);
});

it('a digit of the user takes the place of a digit and of nothing else that holds one', () => {
  const notations =
    '<technical><string>2</string><fingering>1</fingering><fingering alternate="yes">5</fingering></technical>';
  const score = onePart([attributes() + note('C5', 4, { notations })]);
  const { output } = setDigits(score, [{ offset: score.indexOf('<note'), finger: 4 }]);
  expect(output).toBe(score.replace('<fingering>1<', '<fingering>4<'));
});
