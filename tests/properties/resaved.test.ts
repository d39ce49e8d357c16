import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { clear, mark, read } from '../musicxml/write-source.js';
import { RUNS } from '../rounds.js';
import { scoreModel } from './generate.js';
import { toXml } from './generate-score.js';
import { markPlan, marksOf } from './marks.js';

interface Program {
  /** How the program writes a colour; it drops the attribute where undefined. */
  readonly color: (value: string) => string | undefined;
  readonly dropsEmptyWrappers: boolean;
}

const escapeXml = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;').replaceAll('\n', '&#10;');

function isEmptyWrapper(element: XmlElement): boolean {
  if (element.name !== 'technical' && element.name !== 'notations') return false;
  return element.children.every(isEmptyWrapper);
}

/** What a program writes that knows elements, attributes and texts, but no instructions, comments or layout. */
function resave(text: string, program: Program): string {
  const write = (element: XmlElement, indent: string): string => {
    if (program.dropsEmptyWrappers && isEmptyWrapper(element)) return '';
    const attributes = element.attributeNames.map((name) => {
      const value = element.attribute(name) ?? '';
      const written = name === 'color' ? program.color(value) : value;
      return written === undefined ? '' : ` ${name}="${escapeXml(written)}"`;
    });
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

function holdsFingering(element: XmlElement): boolean {
  return element.name === 'fingering' || element.children.some(holdsFingering);
}

const PLAIN: Program = { color: (value) => value, dropsEmptyWrappers: true };
const colored = scoreModel.map((model) => {
  const version = model.style.version === '1.0' ? undefined : model.style.version;
  return { ...model, style: { ...model.style, version: version ?? ('4.0' as const) } };
});

/** The properties share one idea, so that each needs fewer draws. */
const SOME = { numRuns: RUNS.numRuns / 4 };

describe('marked scores that another program has saved', () => {
  it.each<[string, Program]>([
    ['keeps colours', PLAIN],
    ['keeps empty elements too', { ...PLAIN, dropsEmptyWrappers: false }],
    ['writes colours with alpha', { ...PLAIN, color: (value) => value.replace('#', '#FF') }],
    ['writes colours in small letters', { ...PLAIN, color: (value) => value.toLowerCase() }],
  ])('lose all our marks where the program %s', (_, program) => {
    fc.assert(
      fc.property(colored, markPlan, (model, plan) => {
        const original = toXml(model);
        const marks = marksOf({ ...plan, replaceDigits: false }, read(original).score);
        const cleared = clear(resave(mark(original, marks), program));
        expect(cleared.warnings).toEqual([]);
        expect(resave(cleared.text, PLAIN)).toBe(resave(original, PLAIN));
      }),
      SOME,
    );
  });

  it('tell of every note whose own digits, replaced by ours, the program has dropped', () => {
    let lost = 0;
    fc.assert(
      fc.property(colored, markPlan, (model, plan) => {
        const original = toXml(model);
        const { score } = read(original);
        const marks = marksOf({ ...plan, replaceDigits: true }, score);
        const marked = mark(original, marks);
        const replaced = marks.digits.filter(({ part, note }) => {
          const { start, end } = score.parts[part]!.notes[note]!.span;
          return holdsFingering(parseTree(original.slice(start, end), DEFAULT_LIMITS));
        });
        const { text, warnings } = clear(resave(marked, PLAIN));
        expect(warnings.map(({ code }) => code)).toEqual(replaced.map(() => 'DIGIT_LOST'));
        expect(clear(text)).toEqual({ text, edits: [], warnings: [] });
        // Where the instructions are there, nothing is lost and nothing is told.
        expect(clear(marked)).toMatchObject({ text: original, warnings: [] });
        lost += replaced.length;
      }),
      SOME,
    );
    expect(lost).toBeGreaterThan(10);
  });

  it('are left alone where neither instructions nor colours are left', () => {
    const bare: Program = { ...PLAIN, color: () => undefined };
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
    const relayout = (text: string) => text.replaceAll(/>\s*</g, '>\n\t <');
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
