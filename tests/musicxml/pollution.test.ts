import { annotate, clear } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { attributes, backup, note, onePart } from './read-source.js';

/** Names that mean something to objects of JavaScript. */
const NAMES = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'valueOf',
  'hasOwnProperty',
  '__defineGetter__',
  '0',
];
const allowed = NAMES.filter((name) => !/^(?:__proto__|constructor|prototype|0)$/.test(name));

/** Everything that an object has without being given it. */
const inherited = () =>
  [{}, [], () => 0].map((one) => Object.getOwnPropertyNames(Object.getPrototypeOf(one)).sort());

describe('names that could pollute prototypes', () => {
  it.each(NAMES)('%s is a part, a measure, a voice, an instrument or a number like any other', (name) => {
    const before = inherited();
    const text = onePart([
      attributes() +
        note('C5', 16, { voice: name, notations: `<technical><fingering>${name}</fingering></technical>` }) +
        backup(16) +
        note('C3', 16, { voice: `${name}2`, staff: 2, notations: `<slur type="${name}" number="${name}"/>` }),
    ])
      .replaceAll('"P1"', `"${name}"`)
      .replaceAll('number="1"', `number="${name}"`)
      .replace('<beats>4', `<beats>${name}`)
      .replace('</attributes>', `<clef number="${name}"><sign>${name}</sign></clef></attributes>`)
      .replace(
        '</part-name>',
        `</part-name><score-instrument id="${name}"><instrument-name>${name}</instrument-name></score-instrument>`,
      );
    const { output, report } = annotate(text, { legend: true, parts: [name] });
    expect(report.lines.map(({ part, hand, fingered }) => [part, hand, fingered])).toEqual([
      [name, 'right', 1],
      [name, 'left', 1],
    ]);
    expect(clear(output).output).toBe(text);
    expect(inherited()).toEqual(before);
    expect(Object.keys({})).toEqual([]);
  });

  it.each(allowed)('an element and an attribute %s survive', (name) => {
    const before = inherited();
    const text = onePart([`${attributes()}<${name} ${name}="1"><${name}/>x</${name}>${note('C5', 16)}`]);
    const { output } = annotate(text);
    expect(output).toContain('<fingering');
    expect(clear(output).output).toBe(text);
    expect(inherited()).toEqual(before);
  });

  it('an entity, an instruction and a kept digit of such names', () => {
    const before = inherited();
    const entities = NAMES.slice(0, 7).map((name) => `<!ENTITY ${name} "x">`);
    const instructions = allowed.map((name) => `<?${name} __proto__?><?handline ${name} ${name}?>`);
    const text = `<!DOCTYPE score-partwise [${entities.join('')}]>${onePart([attributes() + instructions.join('') + note('C5', 16)])}`;
    const { output, report } = annotate(text);
    expect(report.warnings.map(({ code }) => code)).toEqual(allowed.map(() => 'NOT_OURS'));
    expect(clear(output).output).toBe(text);
    expect(inherited()).toEqual(before);
  });
});
