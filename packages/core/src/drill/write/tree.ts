import { create } from '#xmlbuilder2';
import { literal } from '../../musicxml/xml/references.js';

/** An element under construction. */
export type Tree = ReturnType<typeof create>;

export function newDocument(): Tree {
  return create({ version: '1.0', encoding: 'UTF-8' }).dtd({
    name: 'score-partwise',
    pubID: '-//Recordare//DTD MusicXML 4.0 Partwise//EN',
    sysID: 'http://www.musicxml.org/dtds/partwise.dtd',
  });
}

/** Adds an element that holds a text. */
export function leaf(parent: Tree, name: string, text: string | number): void {
  parent.ele(name).txt(literal(String(text)));
}
