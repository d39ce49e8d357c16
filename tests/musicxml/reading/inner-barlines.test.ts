import { expect, it } from 'vitest';
import { toNumber } from '#core/numeric/fraction.js';
import { attributes, note, onePart, readText } from '../read-source.js';

const [whole, half] = [note('C5', 16), note('C5', 8)];
const sound = (what: string): string => `<sound ${what}/>`;
const barline = (location: string, content = ''): string =>
  `<barline location="${location}">${content}</barline>`;
const inner = (content = ''): string => barline('middle', content);
const printed = (mark: string): string => `<direction><direction-type>${mark}</direction-type></direction>`;
const daCapo = sound('dacapo="yes"');
const toCoda = whole + sound('tocoda="x"');
const dalSegno = whole + sound('dalsegno="x"');
const backward = '<repeat direction="backward"/>';

/** Quarter notes from and to which it is played, stretch by stretch. */
function stretches(...[first, ...others]: readonly string[]): string {
  const [part] = readText(onePart([attributes() + first, ...others])).score.parts;
  return part!.playingOrder.map(({ from, to }) => `${toNumber(from)}-${toNumber(to)}`).join(' ');
}

it('marks that end something stand before an inner barline', () => {
  const ended = (mark: string) => half + mark + inner() + half;
  expect(stretches(ended(sound('fine="yes"')), whole + daCapo)).toBe('0-4 4-8 0-2');
  expect(stretches(ended(daCapo), whole)).toBe('0-2 0-4 4-8');
  expect(stretches(ended(sound('tocoda="x"')), whole + daCapo, sound('coda="x"') + whole)).toBe(
    '0-4 4-8 0-2 8-12',
  );
  expect(stretches(sound('segno="x"') + whole, ended(sound('dalsegno="x"')))).toBe('0-4 4-6 0-4 4-8');
});

it('marks that begin something stand after it', () => {
  const begun = (mark: string) => half + inner() + mark + half;
  for (const segno of [sound('segno="x"'), printed('<segno/>')])
    expect(stretches(begun(segno), dalSegno)).toBe('0-4 4-8 2-4 4-8');
  for (const coda of [sound('coda="x"'), printed('<coda/>')])
    expect(stretches(toCoda, whole + daCapo, begun(coda))).toBe('0-4 4-8 0-4 10-12');
  const end = whole + barline('right', backward);
  expect(stretches(begun(sound('forward-repeat="yes"')), end)).toBe('0-4 4-8 2-4 4-8');
});

it('marks may be on the inner barline itself', () => {
  const at = (mark: string) => half + inner(mark) + half;
  expect(stretches(at('<segno/>'), dalSegno)).toBe('0-4 4-8 2-4 4-8');
  expect(stretches(toCoda, whole + daCapo, at('<coda/>'))).toBe('0-4 4-8 0-4 10-12');
});

it('marks at the outer barlines of a measure with an inner one are those of its first and its last half', () => {
  const framed = (open: string, close = '') =>
    barline('left', open) + half + inner() + half + barline('right', close);
  expect(stretches(whole, framed('<segno/>'), dalSegno)).toBe('0-4 4-8 8-12 4-8 8-12');
  expect(stretches(whole, framed('<repeat direction="forward"/>', backward))).toBe('0-4 4-8 4-8');
  expect(stretches(toCoda, whole + daCapo, framed('<coda/>'))).toBe('0-4 4-8 0-4 8-12');
});
