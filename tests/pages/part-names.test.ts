import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { annotate, type Hand, labelNotes, planDigits, setDigits } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { withPartNames } from '../../packages/cli/src/pages/score/part-names.js';
import { Notes } from '../../packages/cli/src/pages/stand/notes.js';
import { Shown } from '../../packages/cli/src/pages/stand/workers/shown.js';
import { piecesOf } from './duet.js';
import { folder, made } from './made.js';

describe('the name of a part', () => {
  const named = (hands: readonly (readonly [part: number, hand: Hand])[], names: readonly string[]) =>
    withPartNames(
      hands.map(([part, hand]) => ({ partId: `P${part}`, line: { hand, part, slices: [] } })),
      names,
    ).map(({ partName }) => partName);
  const two = [
    [0, 'right'],
    [0, 'left'],
    [1, 'right'],
    [1, 'left'],
  ] as const;

  it('is given where one hand occurs in several parts, and nowhere else', () => {
    expect(named(two, ['Primo', 'Secondo'])).toEqual(['Primo', 'Primo', 'Secondo', 'Secondo']);
    expect(named(two.slice(0, 2), ['Piano'])).toEqual([undefined, undefined]);
    expect(named([two[0], two[3]], ['Upper', 'Lower'])).toEqual([undefined, undefined]);
    expect(named([two[0], two[2]], ['Primo', 'Secondo'])).toEqual(['Primo', 'Secondo']);
  });

  it('has a number where another part is called the same, and the id where the score gives none', () => {
    expect(named(two, ['Piano', 'Piano'])).toEqual(['Piano 1', 'Piano 1', 'Piano 2', 'Piano 2']);
    expect(named(two, ['Piano', ''])).toEqual(['Piano', 'Piano', 'P1', 'P1']);
    const staves = [
      [0, 'right'],
      [1, 'left'],
      [2, 'right'],
      [3, 'left'],
    ] as const;
    expect(named(staves, ['Piano', 'Piano', 'Piano', 'Piano'])).toEqual([
      'Piano 1',
      'Piano 1',
      'Piano 2',
      'Piano 2',
    ]);
  });
});

describe('a score for four hands', () => {
  const text = piecesOf(['Primo', 'Secondo &amp; &lt;b&gt;']);
  const path = join(folder, 'duet.musicxml');
  writeFileSync(path, text);

  it('says in the handout whose hand each band, view and finding is', async () => {
    const { html } = await made('duet', path, '--views', '1:1');
    for (const [part, hand] of [
      ['Primo', 'right'],
      ['Primo', 'left'],
      ['Secondo &amp; &lt;b&gt;', 'right'],
      ['Secondo &amp; &lt;b&gt;', 'left'],
    ]) {
      expect(html).toMatch(new RegExp(`<title>Forearm in and out, ${part}, ${hand} hand</title>`));
      expect(html).toMatch(new RegExp(`<text[^>]*>${part}, ${hand![0]}\\.h\\. ↑ in</text>`));
      expect(html).toMatch(new RegExp(`<title>Keyboard, ${part}, ${hand} hand: `));
      expect(html).toContain(`<strong>Measure 1, beat 1, ${part}, ${hand} hand</strong>`);
    }
    const { html: alone } = await made('solo', path, '--part', 'P1', '--measures', '1-2');
    expect(alone).toContain('<title>Forearm in and out, right hand</title>');
    expect(alone).not.toContain('Primo, r');
  });

  it('says in the handout whose finding it is', async () => {
    const { slices } = annotate(text).report.lines[2]!;
    const fives = slices.slice(0, 12).map(({ notes }) => ({ offset: notes[0]!.offset, finger: 5 as const }));
    const other = join(folder, 'duet-fives.musicxml');
    writeFileSync(other, setDigits(text, fives).output);
    const { html } = await made('duet-fives', other, '--measures', '1-4');
    const places = [...html.matchAll(/<li><strong>(Measure[^<]*)<\/strong>/g)].map(([, place]) => place);
    for (const place of places) expect(place).toMatch(/, (?:Primo|Secondo &amp; &lt;b&gt;), right hand$/);
    expect(places.filter((place) => place!.includes('Secondo')).length).toBeGreaterThan(0);
  });

  it('says on the stand whose the chosen note is', () => {
    const { output, report } = annotate(text);
    const shown = new Shown(new TextEncoder().encode(output), { language: 'en', layers: [] });
    const notes = new Notes(shown.told().lines, report, new Map());
    const partOf = (line: number) => notes.at({ line, slice: 0, key: 0 })!.partName;
    expect([0, 1, 2, 3].map(partOf)).toEqual(['Primo', 'Primo', 'Secondo & <b>', 'Secondo & <b>']);
    expect(shown.keyboard({ line: 3, slice: 0 })).toContain('Keyboard, Secondo &amp; &lt;b&gt;, left hand');
    const { lines } = planDigits(output);
    expect(lines.map(({ line }) => labelNotes(output).parts[line.part])).toEqual([0, 1, 2, 3].map(partOf));
  });
});
