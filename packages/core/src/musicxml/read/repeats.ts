import type { Draft } from '../../score/draft.js';
import type { MeasureFlow } from '../../score/playing-order.js';
import type { XmlElement } from '../xml/tree.js';
import type { PartDraft } from './drafts.js';
import { integer } from './elements/number.js';
import type { Sections } from './sections.js';

type FlowDraft = Draft<MeasureFlow>;

/**
 * Repeats, endings and jumps of every section, gathered from all parts (many programs write them into one only).
 * Jumps come from `<sound>`; where a score has no sounding jump at all, from words such as "D.C. al Fine".
 */
export function readFlow(drafts: readonly PartDraft[], sections: Sections): MeasureFlow[] {
  const flow: FlowDraft[] = sections.list.map(() => ({}));
  const words: FlowDraft[] = sections.list.map(() => ({}));
  let sounding = false;
  for (const draft of drafts) {
    let ending: { numbers: number[]; from: number } | undefined;
    for (const mark of draft.flow) {
      const { element } = mark;
      const [after, before] = [flow[sections.around(mark)], flow[sections.before(mark)]] as [
        FlowDraft,
        FlowDraft,
      ];
      if (element.name === 'barline') {
        const bracket = element.child('ending');
        const type = bracket?.attribute('type');
        if (bracket !== undefined && type === 'start') {
          const from = sections.begunBy(mark);
          if (ending !== undefined) cover(flow, ending.from, Math.max(from - 1, ending.from), ending.numbers);
          ending = { numbers: endingNumbers(bracket), from };
        }
        readBarline(
          element,
          flow[sections.begunBy(mark)] as FlowDraft,
          flow[sections.endedBy(mark)] as FlowDraft,
        );
        if (ending !== undefined && (type === 'stop' || type === 'discontinue')) {
          cover(flow, ending.from, sections.endedBy(mark), ending.numbers);
          ending = undefined;
        }
      } else if (element.name === 'direction') {
        for (const sound of element.all('sound')) sounding = readSound(sound, after, before) || sounding;
        readMarks(element, after, words[sections.before(mark)] as FlowDraft);
      } else sounding = readSound(element, after, before) || sounding;
    }
    if (ending !== undefined) cover(flow, ending.from, ending.from, ending.numbers);
  }
  return sounding ? flow : flow.map((section, index) => ({ ...section, ...words[index] }));
}

function cover(flow: readonly FlowDraft[], from: number, to: number, numbers: readonly number[]): void {
  for (let index = from; index <= to; index++) (flow[index] as FlowDraft).endings = numbers;
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

function readBarline(barline: XmlElement, begun: FlowDraft, ended: FlowDraft): void {
  for (const repeat of barline.all('repeat')) {
    if (repeat.attribute('direction') === 'forward') begun.repeatStart = true;
    if (repeat.attribute('direction') !== 'backward') continue;
    ended.repeatEnd = Math.max(integer(repeat.attribute('times')) ?? 2, 1);
    if (repeat.attribute('after-jump') === 'yes') ended.afterJump = true;
  }
  if (barline.child('segno') !== undefined) begun.segno = barline.attribute('segno') ?? '';
  if (barline.child('coda') !== undefined) begun.coda = barline.attribute('coda') ?? '';
}

/** True where the element sends the player somewhere else. */
function readSound(sound: XmlElement, after: FlowDraft, before: FlowDraft): boolean {
  const [segno, coda] = [sound.attribute('segno'), sound.attribute('coda')];
  const [dalSegno, toCoda] = [sound.attribute('dalsegno'), sound.attribute('tocoda')];
  if (segno !== undefined) after.segno = segno;
  if (coda !== undefined) after.coda = coda;
  if (sound.attribute('forward-repeat') === 'yes') after.repeatStart = true;
  if (dalSegno !== undefined) before.dalSegno = dalSegno;
  if (toCoda !== undefined) before.toCoda = toCoda;
  if (sound.attribute('dacapo') === 'yes') before.daCapo = true;
  const fine = sound.attribute('fine');
  if (fine !== undefined && fine !== 'no') before.fine = true;
  return before.daCapo === true || dalSegno !== undefined;
}

function readMarks(direction: XmlElement, measure: FlowDraft, words: FlowDraft): void {
  for (const type of direction.all('direction-type')) {
    for (const mark of type.children) {
      if (mark.name === 'segno') measure.segno ??= '';
      if (mark.name === 'coda') measure.coda ??= '';
      if (mark.name === 'words') readWords(mark.text, words);
    }
  }
}

function readWords(text: string, words: FlowDraft): void {
  const said = text.trim().toLowerCase();
  if (/^(?:d\.\s*c\.|da capo\b|dc\b)/.test(said)) words.daCapo = true;
  else if (/^(?:d\.\s*s\.|dal segno\b|ds\b)/.test(said)) words.dalSegno = '';
  else if (/^fine\.?$/.test(said)) words.fine = true;
  else if (/^(?:to coda|al coda|alla coda)\b/.test(said)) words.toCoda = '';
}
