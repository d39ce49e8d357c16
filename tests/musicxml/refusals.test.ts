import { annotate, HandlineError } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, note, onePart } from '../musicxml/read-source.js';

const LONG = 'x'.repeat(100_000);

function refusal(text: string): string {
  try {
    annotate(text, { file: 'f.musicxml' });
  } catch (error) {
    expect(error).toBeInstanceOf(HandlineError);
    return (error as HandlineError).message;
  }
  throw new Error('was not refused');
}

describe('a refusal is one line that can be read, whatever the file', () => {
  const endless = onePart([attributes() + note('C5', 999_999_999)]);

  it.each([
    ['a measure number of two lines', endless.replace('number="1"', 'number="1&#10;2"')],
    ['a measure number without end', endless.replace('number="1"', `number="${LONG}"`)],
    ['a part id with what a terminal obeys', endless.replaceAll('"P1"', '"P&#x9b;31m"')],
    ['a part id without end', endless.replaceAll('"P1"', `"${LONG}"`)],
    ['an element without end', endless.replace('</note>', `<${LONG}></note>`)],
    ['an attribute without end', endless.replace('<note', `<note ${LONG}`)],
  ])('%s', (_, text) => {
    const message = refusal(text);
    expect(message).toMatch(/^f\.musicxml: /);
    expect(message).not.toMatch(/\p{Cc}/u);
    expect(message.length).toBeLessThan(700);
  });

  it.each(['<', '</', '</note', '</note\n', '<note', '<note number', '<no'])(
    'a file that ends in %s is truncated',
    (end) => {
      const text = endless.slice(0, endless.lastIndexOf('</note>')) + end;
      expect(refusal(text)).toMatch(/truncated|has no value/);
    },
  );
});
