import type { MeasureFlow } from '../score/playing-order.js';
import { integer } from './readnumber.js';
import type { PartSource } from './readparts.js';
import type { XmlElement } from './tree.js';

type Draft = { -readonly [K in keyof MeasureFlow]: MeasureFlow[K] };

/**
 * Repeats, endings and jumps of every measure, gathered from all parts (many programs write them into one only).
 * Jumps come from `<sound>`; where a score has no sounding jump at all, from words such as "D.C. al Fine".
 */
export function readFlow(parts: readonly PartSource[]): MeasureFlow[] {
  const count = parts.reduce((most, part) => Math.max(most, part.measures.length), 0);
  const flow: Draft[] = Array.from({ length: count }, () => ({}));
  const words: Draft[] = Array.from({ length: count }, () => ({}));
  let sounding = false;
  for (const part of parts) {
    let ending: { numbers: number[]; from: number } | undefined;
    part.measures.forEach(({ content }, index) => {
      const measure = flow[index] as Draft;
      for (const element of content.children) {
        if (element.name === 'barline') {
          const mark = element.child('ending');
          const numbers = mark === undefined ? [] : endingNumbers(mark);
          const type = mark?.attribute('type');
          if (type === 'start') {
            if (ending !== undefined)
              cover(flow, ending.from, Math.max(index - 1, ending.from), ending.numbers);
            ending = { numbers, from: index };
          }
          readBarline(element, measure);
          if (ending !== undefined && (type === 'stop' || type === 'discontinue')) {
            cover(flow, ending.from, index, ending.numbers);
            ending = undefined;
          }
        } else if (element.name === 'direction') {
          for (const sound of element.all('sound')) sounding = readSound(sound, measure) || sounding;
          readMarks(element, measure, words[index] as Draft);
        } else if (element.name === 'sound') {
          sounding = readSound(element, measure) || sounding;
        }
      }
    });
    if (ending !== undefined) cover(flow, ending.from, ending.from, ending.numbers);
  }
  return sounding ? flow : flow.map((measure, index) => ({ ...measure, ...words[index] }));
}

function cover(flow: readonly Draft[], from: number, to: number, numbers: readonly number[]): void {
  for (let index = from; index <= to; index++) (flow[index] as Draft).endings = numbers;
}

/** `1`, `1, 2`, `1-3`; anything else names no ending. */
function endingNumbers(ending: XmlElement): number[] {
  const numbers = new Set<number>();
  for (const piece of (ending.attribute('number') ?? '').split(/[,\s]+/)) {
    const range = /^(\d{1,2})(?:-(\d{1,2}))?$/.exec(piece);
    if (range === null) continue;
    const first = Number(range[1]);
    for (let number = first; number <= Number(range[2] ?? first); number++) numbers.add(number);
  }
  return [...numbers].filter((number) => number > 0);
}

function readBarline(barline: XmlElement, measure: Draft): void {
  for (const repeat of barline.all('repeat')) {
    if (repeat.attribute('direction') === 'forward') measure.repeatStart = true;
    if (repeat.attribute('direction') !== 'backward') continue;
    measure.repeatEnd = Math.max(integer(repeat.attribute('times')) ?? 2, 1);
    if (repeat.attribute('after-jump') === 'yes') measure.afterJump = true;
  }
  if (barline.child('segno') !== undefined) measure.segno = barline.attribute('segno') ?? '';
  if (barline.child('coda') !== undefined) measure.coda = barline.attribute('coda') ?? '';
}

/** True where the element sends the player somewhere else. */
function readSound(sound: XmlElement, measure: Draft): boolean {
  const [segno, coda] = [sound.attribute('segno'), sound.attribute('coda')];
  const [dalSegno, toCoda] = [sound.attribute('dalsegno'), sound.attribute('tocoda')];
  if (segno !== undefined) measure.segno = segno;
  if (coda !== undefined) measure.coda = coda;
  if (dalSegno !== undefined) measure.dalSegno = dalSegno;
  if (toCoda !== undefined) measure.toCoda = toCoda;
  if (sound.attribute('dacapo') === 'yes') measure.daCapo = true;
  if (sound.attribute('forward-repeat') === 'yes') measure.repeatStart = true;
  const fine = sound.attribute('fine');
  if (fine !== undefined && fine !== 'no') measure.fine = true;
  return measure.daCapo === true || dalSegno !== undefined;
}

function readMarks(direction: XmlElement, measure: Draft, words: Draft): void {
  for (const type of direction.all('direction-type')) {
    for (const mark of type.children) {
      if (mark.name === 'segno') measure.segno ??= '';
      if (mark.name === 'coda') measure.coda ??= '';
      if (mark.name === 'words') readWords(mark.text, words);
    }
  }
}

function readWords(text: string, words: Draft): void {
  const said = text.trim().toLowerCase();
  if (/^(?:d\.\s*c\.|da capo\b|dc\b)/.test(said)) words.daCapo = true;
  else if (/^(?:d\.\s*s\.|dal segno\b|ds\b)/.test(said)) words.dalSegno = '';
  else if (/^fine\.?$/.test(said)) words.fine = true;
  else if (/^(?:to coda|al coda|alla coda)\b/.test(said)) words.toCoda = '';
}
