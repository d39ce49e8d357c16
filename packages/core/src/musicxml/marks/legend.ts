import type { XmlElement } from '../xml/tree.js';
import { insertDirection } from './cue.js';
import type { Edit } from './edit.js';
import { writeInstruction } from './format.js';
import { type InsertionBuilder, type NewElement, xmlText } from './insertions.js';
import { layoutBeside } from './layout.js';

interface Options {
  readonly builder: InsertionBuilder;
  readonly color: string | undefined;
}

function find(parent: XmlElement, path: readonly string[]): XmlElement | undefined {
  let element: XmlElement | undefined = parent;
  for (const name of path) element = element?.children.find((child) => child.name === name);
  return element;
}

function tenths(root: XmlElement, path: readonly string[]): number | undefined {
  const value = Number.parseFloat(find(root, ['defaults', 'page-layout', ...path])?.text ?? '');
  return Number.isFinite(value) ? value : undefined;
}

/** Top left corner within the margins where the score states its page, else left to the program. */
function corner(root: XmlElement): Record<string, string> {
  const height = tenths(root, ['page-height']);
  const left = tenths(root, ['page-margins', 'left-margin']);
  const top = tenths(root, ['page-margins', 'top-margin']);
  if (height === undefined || left === undefined || top === undefined) return {};
  return { 'default-x': String(left), 'default-y': String(height - top) };
}

/**
 * The legend as a `<credit>` of page 1 after the last one. Only in a score that has credits: programs that find
 * one lay out the page's head from credits alone, so that the first credit would cost the score its title.
 */
function creditEdit(text: string, root: XmlElement, legend: string, options: Options): Edit | undefined {
  const last = root.children.findLast((child) => child.name === 'credit');
  if (last === undefined) return undefined;
  const color = options.color === undefined ? {} : { color: options.color };
  const attributes = { ...corner(root), 'font-size': '8', ...color, justify: 'left', valign: 'top' };
  const credit: NewElement = {
    name: 'credit',
    attributes: { page: '1' },
    children: [{ name: 'credit-words', attributes, text: legend }],
  };
  const layout = layoutBeside(text, root, last);
  const instruction = writeInstruction({ kind: 'legend', text: legend });
  const built = options.builder.build('credit', layout, () => ({ instruction, elements: [credit] }));
  const { end } = last.span;
  return { start: end, end, text: built };
}

/**
 * @param first before which the legend stands, above the part's upper staff, where the score has no credits
 */
export function writeLegend(
  text: string,
  root: XmlElement,
  first: XmlElement | undefined,
  staves: number,
  legend: string,
  options: Options,
): Edit[] {
  const clean = xmlText(legend);
  const credit = creditEdit(text, root, clean, options);
  if (credit !== undefined) return [credit];
  if (first === undefined) return [];
  const staff = staves > 1 ? '1' : undefined;
  const direction = { kind: 'legend', text: clean, placement: 'above', voice: undefined, staff } as const;
  return [insertDirection(text, first, direction, options)];
}
