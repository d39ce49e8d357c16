import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { handline } from '../cli/harness.js';
import { ROOT } from '../musicxml/read-source.js';
import { DEMO, folder, made, measure, note, written } from './made.js';

const BARE = join(ROOT, 'fixtures/page/low-tide.musicxml');
const ACROSS = join(ROOT, 'fixtures/page/hands-across.musicxml');
const CHORDS = join(ROOT, 'fixtures/scores/tchaikovsky-op39-1.musicxml');
const FINGERED = join(ROOT, 'fixtures/scores/schumann-op15-1.musicxml');

describe('handline handout', () => {
  it('is one page without a script and without anything to load', async () => {
    const { html } = await made('plain', BARE, '--measures', '1-8');
    expect(html).not.toMatch(/<script|<link|<iframe|<img|\son\w+=|url\((?!data:)|@import/i);
    expect(html.match(/(?:src|href)="[^#"][^"]*"/g)).toBeNull();
    expect(html).toContain(`content="default-src 'none'; style-src 'unsafe-inline'; font-src data:"`);
    expect(html).toContain('Stop at pain, numbness or fatigue');
    expect(html).toContain('LGPL');
    const ids = [...html.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('keeps what is typed as text and says nothing that was not asked for', async () => {
    const evil = '</style><script>alert("x")</script>&amp;';
    const { html } = await made(
      'typed',
      BARE,
      '--measures',
      '1-2',
      '--title',
      evil,
      '--student',
      'דנה',
      '--notes',
      evil,
    );
    expect(html).not.toContain('<script');
    expect(
      html.split('&lt;/style&gt;&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;&amp;amp;').length,
    ).toBe(4);
    expect(html).toContain('<bdi>דנה</bdi>');
    const { html: bare } = await made('bare', BARE, '--measures', '1-2');
    expect(bare).toContain('<h1 dir="auto">Low Tide, Slow Tide</h1></header>');
    expect(bare).not.toContain('Notes from your teacher');
    expect(bare).toBe((await made('again', BARE, '--measures', '1-2')).html);
  });

  let english: string | undefined;
  it.each([
    ['de', 'Was die Zeichen bedeuten'],
    ['fr', 'Ce que veulent dire les signes'],
    ['es', 'Qué significan los signos'],
    ['it', 'Che cosa vogliono dire i segni'],
  ])('speaks %s throughout', async (language, heading) => {
    const { html } = await made(language, FINGERED, '--measures', '1-4', '--language', language);
    english ??= (await made('en', FINGERED, '--measures', '1-4')).html;
    const headings = (page: string) =>
      [...page.matchAll(/<h2>([^<]*)<\/h2>|<title>([^<]*)<\/title>/g)].map(([, h2, title]) => h2 ?? title!);
    expect(headings(html)).toContain(heading);
    // The first title is that of the score itself.
    const own = headings(english!).slice(1);
    for (const text of headings(html).slice(1)) expect(own).not.toContain(text);
    expect(html).toContain(`<html lang="${language}">`);
    expect(html.replaceAll(/<style[^>]*>[\s\S]*?<\/style>/g, '')).not.toMatch(/\{\w+\}/);
  });

  it('explains the cues and signs that occur, and no others; stays under 2 MB for the whole demo', async () => {
    const { html } = await made('legend', BARE, '--measures', '1-1', '--hands', 'right', '--layers', 'none');
    const [, legend = ''] = /<ul class="legend">(.*?)<\/ul>/.exec(html)!;
    expect(legend).not.toContain('the forearm moves towards the fallboard');
    expect(html.match(/class="handline-picture depth"/g)).toHaveLength(1);
    const { html: all } = await made('all', DEMO, '--layers', 'depth,crossing,carry');
    expect(all).toContain('the thumb passes behind the finger that plays');
    expect(all).toContain('class="handline-picture carry"');
    console.log(`handout of the demo: ${Math.round(all.length / 1024)} KiB`);
    expect(all.length).toBeLessThan(2 * 1024 * 1024);
  });

  it('explains no sign that is not there', async () => {
    const legendOf = (html: string) => /<ul class="legend">(.*?)<\/ul>/.exec(html)![1]!;
    const plain = ['--measures', '1-1', '--hands', 'right', '--layers', 'none'];
    const { html: few } = await made('few', BARE, ...plain, '--views', 'none');
    const { html: whole } = await made('signs', FINGERED);
    const { html: chords } = await made('chords', CHORDS, '--hands', 'left', '--views', '3');
    const seen = new Map<string, Set<boolean>>();
    for (const html of [few, whole, chords]) {
      for (const [name, text] of [
        ['under', 'an arc below'],
        ['over', 'an arc above'],
        ['lifted', 'off the keys'],
        ['black-keys', 'shaded'],
        ['key', 'the line among the rings'],
        ['strikes', 'a full ring'],
        ['holds', 'a ring of dashes'],
        ['elsewhere', 'a dotted ring'],
        ['thumb-way', 'the dashed arrow'],
        ['arm', 'the outline'],
      ] as const) {
        const occurs = html.includes(` class="${name}"`);
        expect(legendOf(html).includes(text), name).toBe(occurs);
        seen.set(name, (seen.get(name) ?? new Set()).add(occurs));
      }
    }
    // At least half of the signs occur on one of these pages and not on another.
    expect([...seen.values()].filter(({ size }) => size === 2).length).toBeGreaterThanOrEqual(5);
  });

  it.each([
    ['en', 'hand over', 'hand under'],
    ['de', 'übergreifen', 'untergreifen'],
    ['fr', 'main dessus', 'main dessous'],
    ['es', 'mano por encima', 'mano por debajo'],
    ['it', 'mano sopra', 'mano sotto'],
  ])('explains one hand over the other in %s', async (language, over, under) => {
    const { html } = await made(`across-${language}`, ACROSS, '--language', language);
    const [, legend = ''] = /<ul class="legend">(.*?)<\/ul>/.exec(html)!;
    expect(legend).toMatch(new RegExp(`<b>${over}</b> \\S`));
    expect(legend).toMatch(new RegExp(`<b>${under}</b> \\S`));
  });

  it('is for the student whose settings it was made with', async () => {
    const config = join(folder, 'students.json');
    writeFileSync(config, JSON.stringify({ for: { Ida: { span: '8th' } } }));
    const ida = ['--measures', '1-2', '--config', config, '--for', 'Ida'];
    expect((await made('ida', BARE, ...ida)).html).toContain('For <bdi>Ida</bdi>');
    const { html: other } = await made('other', BARE, ...ida, '--student', 'Ida Holm');
    expect(other).toContain('For <bdi>Ida Holm</bdi>');
    const sheet = join(folder, 'ida-sheet.html');
    const drill = ['drill', '--keys', 'D', '-o', join(folder, 'ida.musicxml'), '--page', sheet, '--force'];
    expect((await handline([...drill, '--config', config, '--for', 'Ida'], folder)).code).toBe(0);
    expect(readFileSync(sheet, 'utf8')).toContain('For <bdi>Ida</bdi>');
  });

  it('shows the keyboard where it is asked to', async () => {
    const { html } = await made('views', BARE, '--views', '2:1,3', '--hands', 'right');
    expect(html.match(/class="view"/g)).toHaveLength(2);
    expect(html).toContain('Measure 2, beat 1, right hand');
    const { html: none } = await made('none', BARE, '--measures', '1-2', '--views', 'none');
    expect(none).not.toContain('class="view"');
    const bad = await handline(['handout', BARE, '-o', join(folder, 'bad.html'), '--views', '999'], folder);
    expect(bad.code).toBe(2);
    expect(existsSync(join(folder, 'bad.html'))).toBe(false);
  });

  it('compares the printed fingering with an easier one', async () => {
    const { html } = await made('compare', FINGERED, '--compare', '--measures', '1-8');
    expect(html).toMatch(/as printed<\/figcaption>/);
    expect(html).toMatch(/, easier<\/figcaption>/);
    // Under each printed system the same measures, however many systems they fill.
    const measuresOf = (text: string) => {
      const [, first, last = first] = /Measures? (\d+)(?:–(\d+))?/.exec(text)!;
      return Array.from({ length: Number(last) - Number(first) + 1 }, (_, nth) => Number(first) + nth);
    };
    const pairs = html.split('<div class="pair">').slice(1);
    expect(pairs.length).toBeGreaterThan(2);
    for (const pair of pairs) {
      const captions = [...pair.matchAll(/<figcaption>(Measure[^<]*)</g)].map(([, text]) => text!);
      const [above, ...below] = captions.map(measuresOf);
      expect(below.flat()).toEqual(above);
      expect(captions[0]).toContain('as printed');
    }
    const [, printed, easier] = /(\d+) mm as printed, (\d+) mm/.exec(html)!;
    expect(Number(easier)).toBeLessThanOrEqual(Number(printed));
    const none = await handline(['handout', BARE, '--compare', '-o', join(folder, 'no.html')], folder);
    expect(none.code).toBe(1);
    expect(none.stderr).toContain('--compare needs a fingering in print');
  });

  it('speaks of the printed fingering where it is on the page', async () => {
    const { html } = await made('kept', FINGERED, '--measures', '1-4', '--views', 'none');
    expect(html).toContain('The printed fingering');
    const replaced = ['--existing', 'replace', '--measures', '1-4', '--views', 'none'];
    expect((await made('replaced', FINGERED, ...replaced)).html).not.toContain('The printed fingering');
    const { html: both } = await made('both', FINGERED, '--compare', '--measures', '1-4', '--views', 'none');
    expect(both).toContain('The printed fingering');
  });

  it('tells of chords that the hand cannot reach, and what can be done', async () => {
    const chord = ['C', 'E', 'G'].map((step, nth) => note(step, nth + 3, nth > 0)).join('');
    const path = written('wide', `${measure(1, chord)}${measure(2, note('C', 5))}`);
    const { html } = await made('wide', path, '--staff', 'right', '--language', 'en');
    expect(html).toContain('<h2>Chords out of reach</h2>');
    expect(html).toMatch(/<strong>Measure 1, beat 1, right hand<\/strong>: .*roll the chord/);
    const { html: other } = await made('within', path, '--staff', 'right', '--measures', '2-2');
    expect(other).not.toContain('Chords out of reach');
  });

  it('shows where the forearm moves or the thumb passes, not where a hand leaps along the keys', async () => {
    const octave = (low: number) => note('C', low) + note('C', low + 1, true);
    const leaps = [3, 6].map(octave).join('');
    const run = ['D', 'E', 'F', 'G', 'A', 'B'].map((step) => note(step, 4)).join('');
    const path = written('leaps', `${measure(1, leaps + leaps)}${measure(2, run)}`);
    const { html } = await made('leaps', path, '--staff', 'right');
    const views = [...html.matchAll(/<figcaption><strong>(Measure \d)/g)].map(([, place]) => place);
    expect(views).toEqual(['Measure 2']);
  });

  it('engraves a passage that is to be played a thousand million times', async () => {
    const barline =
      '<barline location="right"><repeat direction="backward" times="1000000000"/></barline></measure>';
    const path = written('often', measure(1, note('C', 5)).replace('</measure>', barline));
    const { html } = await made('often', path, '--staff', 'right', '--views', 'none');
    expect(html).toContain('Measure 1');
  });

  it('engraves a timewise score as well', async () => {
    const { html } = await made('timewise', join(ROOT, 'fixtures/read/timewise.musicxml'));
    expect(html).toContain('Measures 1–2');
    expect(html.match(/data-note="note-1-\d+"/g)).toHaveLength(5);
  });

  it('refuses what is no score, and options of mark that mean nothing here', async () => {
    const bad = join(folder, 'bad.musicxml');
    writeFileSync(bad, '<html/>');
    expect((await handline(['handout', bad, '-o', join(folder, 'x.html')], folder)).code).toBe(1);
    // verovio divides by the beat type and is thrown by a chord member without a note.
    const noBeats = measure(1, note('C', 5)).replace(
      '</divisions>',
      '</divisions><time><beats>4</beats><beat-type>0</beat-type></time>',
    );
    for (const measures of [noBeats, measure(1, note('C', 5, true) + note('D', 5))]) {
      const out = ['-o', join(folder, 'x.html'), '--staff', 'right'];
      const failed = await handline(['handout', written('fails', measures), ...out], folder);
      expect(failed.code).toBe(1);
      expect(failed.stderr).toMatch(/^handline: \S+fails\.musicxml: cannot be engraved by verovio/);
    }
    const imperfect = join(ROOT, 'fixtures/read/imperfect.musicxml');
    const empty = await handline(['handout', imperfect, '-o', join(folder, 'x.html')], folder);
    expect(empty.code).toBe(1);
    expect(empty.stderr).toContain('finds no notes in it');
    expect((await handline(['handout', DEMO, '--legend', '-o', join(folder, 'x.html')], folder)).code).toBe(
      2,
    );
    expect(
      (await handline(['handout', DEMO, '--measures', '900', '-o', join(folder, 'x.html')], folder)).code,
    ).toBe(2);
    expect(existsSync(join(folder, 'x.html'))).toBe(false);
  });
});
