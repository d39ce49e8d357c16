import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { findingTexts, review } from '@handline/core';
import { describe, expect, it } from 'vitest';
import { escapeHtml } from '../../packages/cli/src/pages/escape.js';
import { HANDOUT_WORDS } from '../../packages/cli/src/pages/handout/words/words.js';
import { ROOT } from '../musicxml/read-source.js';
import { made, measure, note, written } from './made.js';

const FINGERED = join(ROOT, 'fixtures/scores/schumann-op15-1.musicxml');

describe('a handout', () => {
  it('tells the gravest findings in the order of the score, each with the easier way', async () => {
    const { html } = await made('gravest', FINGERED, '--views', 'none');
    const told = findingTexts(review(readFileSync(FINGERED)));
    const places = told
      .slice(0, 8)
      .sort((a, b) => a.finding.number - b.finding.number)
      .map(({ text }) => escapeHtml(text));
    expect(told.length).toBeGreaterThan(8);
    expect(told.some(({ finding }) => finding.level !== told[0]!.finding.level)).toBe(true);
    expect(told[0]!.text).toContain(told[0]!.finding.remedy!.text);
    const [, list = ''] = /The printed fingering<\/h2><ul>(.*?)<\/ul>/s.exec(html) ?? [];
    expect([...list.matchAll(/<\/strong>: (.*?)<\/li>/g)].map(([, text]) => text)).toEqual(places);
  });

  it.each([
    ['en', 'Upbeat to measure 2', 'Upbeat, beat 4, right hand'],
    ['de', 'Auftakt bis Takt 2', 'Auftakt, Zählzeit 4, rechte Hand'],
    ['fr', 'De la levée à la mesure 2', 'Levée, temps 4, main droite'],
    ['es', 'De la anacrusa al compás 2', 'Anacrusa, tiempo 4, mano derecha'],
    ['it', 'Dall’anacrusi alla battuta 2', 'Anacrusi, tempo 4, mano destra'],
  ])('names an upbeat as a player does: %s', async (language, system, place) => {
    const time = '</divisions><time><beats>4</beats><beat-type>4</beat-type></time>';
    const upbeat = measure(0, note('G', 4))
      .replace('number="0"', 'number="0" implicit="yes"')
      .replace('</divisions>', time);
    const bars = [1, 2].map((number) =>
      measure(number, ['C', 'E', 'D', 'F'].map((own) => note(own, 5)).join('')),
    );
    const score = written('upbeat', [upbeat, ...bars].join(''));
    const { html } = await made('upbeat', score, '--language', language, '--views', '0:4');
    expect(html).toContain(system);
    expect(html).toContain(`<strong>${place}`);
  });

  it.each([
    ['en', 'in', 'out'],
    ['de', 'hinein', 'heraus'],
    ['fr', 'entre', 'sort'],
    ['es', 'entra', 'sale'],
    ['it', 'entra', 'esce'],
  ] as const)('speaks of in and out in the words of the cues: %s', (language, into, outOf) => {
    const { signIn, signOut } = HANDOUT_WORDS[language];
    expect(signIn).toMatch(new RegExp(` ${into}\\b`));
    expect(signOut).toMatch(new RegExp(` ${outOf}\\b`));
  });

  it.each([
    ['right', ['C', 'F', 'A', 'F'], ['C', 'E', 'D', 'B']],
    ['left', ['C', 'E', 'A', 'D-'], ['A', 'B-', 'F', 'E']],
  ])(
    'shows the keyboards of both hands in the order of the beats, the %s hand first',
    async (first, ...hands) => {
      const [upper, lower] = hands.map((steps, staff) =>
        steps
          .map((step) =>
            note(step[0]!, staff === 0 ? 5 : 2).replace('</note>', `<staff>${staff + 1}</staff></note>`),
          )
          .map((own, nth) =>
            steps[nth]!.length > 1 ? own.replace('</step>', '</step><alter>-1</alter>') : own,
          )
          .join(''),
      );
      const both = `${upper}<backup><duration>4</duration></backup>${lower}`;
      const score = measure(1, both).replace('</divisions>', '</divisions><staves>2</staves>');
      const { html } = await made('beats', written('beats', score));
      const views = [...html.matchAll(/<strong>Measure 1, beat (\d+), (right|left) hand/g)];
      const beats = views.map(([, beat]) => Number(beat));
      expect(beats.length).toBeGreaterThan(1);
      expect(beats).toEqual(beats.toSorted((a, b) => a - b));
      expect(views[0]![2]).toBe(first);
    },
  );
});
