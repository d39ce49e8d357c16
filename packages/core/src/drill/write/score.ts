import { literal } from '../../musicxml/xml/references.js';
import type { Hand } from '../../score/model.js';
import { PAGE, STAFF_HEIGHT } from '../engraving/breaks.js';
import { HOME_CLEF, type SheetMeasure } from '../engraving/engrave.js';
import type { Metre } from '../rhythm/metre.js';
import { type Setting, writeMeasure } from './measure.js';
import { leaf, newDocument, type Tree } from './tree.js';

/** Title block and setting of a sheet. */
export interface Head {
  readonly title: string;
  /** In lines; absent where a legend will hold it. */
  readonly caution?: string;
  /** Name of the part, for readers that list instruments. */
  readonly instrument: string;
  readonly hands: readonly Hand[];
  readonly metre: Metre;
  readonly tempo: number;
}

const TENTHS = 40;

/** MusicXML counts a page in tenths of a staff space. */
function tenths(mm: number): string {
  return String(Math.round((mm * TENTHS) / STAFF_HEIGHT));
}

/** A sheet as MusicXML 4.0. */
export function writeSheet(head: Head, measures: readonly SheetMeasure[]): string {
  const document = newDocument();
  const root = document.ele('score-partwise', { version: '4.0' });
  leaf(root.ele('work'), 'work-title', head.title);
  leaf(root.ele('identification').ele('encoding'), 'software', 'Handline');
  writeDefaults(root);
  writeTitle(root, head.title);
  const scorePart = root.ele('part-list').ele('score-part', { id: 'P1' });
  scorePart.ele('part-name', { 'print-object': 'no' }).txt(literal(head.instrument));
  const instrument = scorePart.ele('score-instrument', { id: 'P1-I1' });
  leaf(instrument, 'instrument-name', head.instrument);
  leaf(instrument, 'instrument-sound', 'keyboard.piano');
  const part = root.ele('part', { id: 'P1' });
  const setting: Setting = {
    metre: head.metre,
    tempo: head.tempo,
    ...(head.caution !== undefined && { caution: head.caution }),
    views: head.hands.map((hand) => ({ clef: HOME_CLEF[hand], octaves: 0 })),
  };
  measures.forEach((measure, index) => {
    writeMeasure(part, measure, index, setting);
  });
  return `${document.end({ prettyPrint: true })}\n`;
}

function writeDefaults(root: Tree): void {
  const defaults = root.ele('defaults');
  const scaling = defaults.ele('scaling');
  leaf(scaling, 'millimeters', STAFF_HEIGHT);
  leaf(scaling, 'tenths', TENTHS);
  const page = defaults.ele('page-layout');
  leaf(page, 'page-height', tenths(PAGE.height));
  leaf(page, 'page-width', tenths(PAGE.width));
  const margins = page.ele('page-margins', { type: 'both' });
  for (const side of ['left', 'right', 'top', 'bottom']) leaf(margins, `${side}-margin`, tenths(PAGE.margin));
}

function writeTitle(root: Tree, title: string): void {
  const credit = root.ele('credit', { page: '1' });
  leaf(credit, 'credit-type', 'title');
  const place = {
    'default-x': tenths(PAGE.width / 2),
    'default-y': tenths(PAGE.height - PAGE.margin),
    'font-size': '20',
    justify: 'center',
    halign: 'center',
    valign: 'top',
  };
  credit.ele('credit-words', place).txt(literal(title));
}
