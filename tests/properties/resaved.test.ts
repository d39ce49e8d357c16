import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { digitsOf, noteAround } from '#core/musicxml/marks/clear/match.js';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { clear, mark, read } from '../musicxml/write-source.js';
import { RUNS } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';
import { markPlan, marksOf } from './marks.js';

interface Program {
  readonly dropsEmptyWrappers: boolean;
  /** Of several digits at a note it keeps the last. */
  readonly oneDigit?: boolean;
  /** Attributes that it keeps; all where undefined. */
  readonly keeps?: RegExp;
}

const escapeXml = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;').replaceAll('\n', '&#10;');

function digitTexts(text: string): string[] {
  const inside = (element: XmlElement): string[] =>
    element.name === 'fingering' ? [element.text.trim()] : element.children.flatMap(inside);
  return inside(parseTree(text, DEFAULT_LIMITS));
}

function isEmptyWrapper(element: XmlElement): boolean {
  if (element.name !== 'technical' && element.name !== 'notations') return false;
  return element.children.every(isEmptyWrapper);
}

/** What a program writes that knows elements, attributes and texts, but no instructions, comments or layout. */
function resave(text: string, program: Program): string {
  const write = (element: XmlElement, indent: string): string => {
    if (program.dropsEmptyWrappers && isEmptyWrapper(element)) return '';
    if (program.oneDigit && isFollowed(element)) return '';
    const names = element.attributeNames.filter((name) => program.keeps?.test(name) ?? true);
    const attributes = names.map((name) => ` ${name}="${escapeXml(element.attribute(name) ?? '')}"`);
    const open = `${indent}<${element.name}${attributes.join('')}`;
    if (element.children.length === 0) {
      return element.text.trim() === ''
        ? `${open}/>\n`
        : `${open}>${escapeXml(element.text)}</${element.name}>\n`;
    }
    const inner = element.children.map((child) => write(child, `${indent} `)).join('');
    return `${open}>\n${inner}${indent}</${element.name}>\n`;
  };
  return write(parseTree(text, DEFAULT_LIMITS), '');
}

/** True for a digit behind which the note has another one. */
function isFollowed(element: XmlElement): boolean {
  const note = element.name === 'fingering' ? noteAround(element) : undefined;
  return note !== undefined && digitsOf(note).at(-1)?.id !== element.id;
}

const PLAIN: Program = { dropsEmptyWrappers: true };
const FORGETFUL: Program = {
  dropsEmptyWrappers: true,
  oneDigit: true,
  keeps: /^(?:font-family|number|id|type)$/,
};

/** The properties share one idea, so that each needs fewer draws. */
const SOME = { numRuns: RUNS.numRuns / 4 };

describe('marked scores that another program has saved', () => {
  it.each<[string, Program]>([
    ['keeps elements and attributes', PLAIN],
    ['keeps empty elements too', { dropsEmptyWrappers: false }],
    ['keeps the font of words, one digit a note and little else', FORGETFUL],
  ])('lose all our marks where the program %s', (_, program) => {
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const marks = marksOf({ ...plan, replaceDigits: false }, read(original).score);
        const cleared = clear(resave(mark(original, marks), program));
        expect(cleared.warnings).toEqual([]);
        const seen = { ...program, dropsEmptyWrappers: true };
        expect(resave(cleared.text, seen)).toBe(resave(original, seen));
      }),
      SOME,
    );
  });

  it('have the user’s digits back that ours had replaced', () => {
    let replaced = 0;
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const marks = marksOf({ ...plan, replaceDigits: true }, read(original).score);
        const marked = mark(original, marks);
        const { text, warnings } = clear(resave(marked, FORGETFUL));
        expect(warnings).toEqual([]);
        expect(clear(text)).toEqual({ text, edits: [], warnings: [] });
        // Where the program has not looked at all digits, as many are there as in the original.
        expect(digitTexts(text).length).toBeGreaterThanOrEqual(
          digitTexts(resave(original, FORGETFUL)).length,
        );
        expect(digitTexts(original)).toEqual(expect.arrayContaining(digitTexts(text)));
        replaced += marked.split('<?handline kept').length - 1;
      }),
      SOME,
    );
    expect(replaced).toBeGreaterThan(10);
  });

  it('are left alone where neither instructions nor fonts are left', () => {
    const bare: Program = { ...PLAIN, keeps: /^(?!font-family$)/ };
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml(model);
        const saved = resave(mark(original, marksOf(plan, read(original).score)), bare);
        expect(clear(saved)).toEqual({ text: saved, edits: [], warnings: [] });
      }),
      SOME,
    );
  });

  it('come back whole, replaced digits too, where only the layout has changed', () => {
    const relayout = (text: string) => text.replaceAll(/>[ \t\r\n]*</g, '>\n\t <');
    fc.assert(
      fc.property(scoreModel, markPlan, (model, plan) => {
        const original = toXml({ ...model, style: { ...model.style, noise: [0], head: 'declaration' } });
        const cleared = clear(relayout(mark(original, marksOf(plan, read(original).score))));
        expect(cleared.warnings).toEqual([]);
        expect(relayout(cleared.text)).toBe(relayout(original));
      }),
      RUNS,
    );
  });
});
