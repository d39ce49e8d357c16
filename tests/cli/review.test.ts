import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { scoreOf } from '../review/score.js';
import { DEMO, handline, spawned, workFolder } from './harness.js';

const folder = workFolder();
const SCHEMA = JSON.parse(
  readFileSync(fileURLToPath(new URL('../../packages/core/schema/review-1.json', import.meta.url)), 'utf8'),
);
const validate = new Ajv2020().compile(SCHEMA);

/** One finger hops: worth changing. */
const HOP = scoreOf({ right: 'C4=1 D4=2 E4=2 F4=3 G4=4' });
const EASY = scoreOf({ right: 'C4=1 D4=2 E4=3 F4=4 G4=5' });
/** A stretch for a small hand. */
const WIDE = scoreOf({ right: 'C4=1+A4=4 C4=2+A4=5 D4=1+B4=5' });

describe('review', () => {
  test('of one score is a screen for people, with the advice and the caution', async () => {
    folder.put('hop.musicxml', HOP);
    const { code, stdout, stderr } = await spawned(['review', 'hop.musicxml'], folder.path);
    const text = stdout.toString();
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(text).toBe(`hop.musicxml

5 of 5 notes have digits. Movement: 130 mm as printed, 2 mm at least (passages with digits: 1).

Worth changing (1)
  [1] m. 1, beat 2, right hand, E
      2 has to leave D early and hop to E.
      Easier: 3 4 5 from E to G (beat 3). Saves 128 mm.

Passages that take most beyond the least, mm as printed / at least
  passage            all  sideways  in and out  one finger again
  right hand m. 1  130/2       8/0         2/2             120/0

Movement is not all: whatever feels better in the hand is the one to use.
Fingering and cues are suggestions. Stop at pain, numbness or fatigue. A qualified teacher decides
what suits a hand; see a clinician about symptoms.
`);
  });

  test('fits a screen for the demo and a long edition, and tells everything on request', async () => {
    const edition = fileURLToPath(new URL('../../fixtures/scores/chopin-op45.musicxml', import.meta.url));
    for (const score of [DEMO, edition]) {
      const lines = (await handline(['review', score], folder.path)).stdout.toString().split('\n');
      expect(lines.length).toBeLessThan(60);
      for (const line of lines.slice(1)) expect(line.length).toBeLessThanOrEqual(110);
    }
    const short = (await handline(['review', edition], folder.path)).stdout.toString();
    const all = (await handline(['review', edition, '--all'], folder.path)).stdout.toString();
    expect(all.length).toBeGreaterThan(short.length);
    expect(short).toMatch(/\.\.\. and \d+ more in the full report/);
    expect(all).not.toMatch(/more in the full report/);
  });

  test.each<[string, string[], number]>([
    ['no level', [], 0],
    ['what is worth changing', ['--fail-on', 'change'], 6],
    ['any remark', ['--fail-on', 'remark'], 6],
    ['none where thresholds are higher', ['--fail-on', 'change', '--thresholds', 'change=500'], 0],
    ['a level below', ['--fail-on', 'look', '--thresholds', 'change=500'], 6],
  ])('fails on %s', async (_, options, exit) => {
    folder.put('hop.musicxml', HOP);
    expect((await handline(['review', 'hop.musicxml', ...options], folder.path)).code).toBe(exit);
  });

  test('of several scores ends with a table, worst first; a bad one does not stop the others', async () => {
    folder.put('easy.musicxml', EASY);
    folder.put('hop.musicxml', HOP);
    folder.put('bad.musicxml', '<score');
    const args = ['review', 'easy.musicxml', 'bad.musicxml', 'hop.musicxml', '--fail-on', 'look'];
    const { code, stdout, stderr } = await handline(args, folder.path);
    expect(code).toBe(1);
    expect(stderr).toMatch(/^handline: bad.musicxml: [^\n]+\n$/);
    const table = stdout.toString().split('Scores, worst first')[1]!;
    expect(
      table
        .trim()
        .split('\n')
        .map((row) => row.trim().split(/ {2,}/)[0]),
    ).toEqual(['score', 'hop.musicxml', 'easy.musicxml']);
  });

  test('of a folder is one of its scores, each on a line of the report as it is done', async () => {
    for (const name of ['a', 'b']) mkdirSync(folder.at(`edition/${name}`), { recursive: true });
    folder.put('edition/a/hop.musicxml', HOP);
    folder.put('edition/b/easy.musicxml', EASY);
    folder.put('edition/b/bad.musicxml', '<score');
    const args = ['review', 'edition', 'edition/*/hop.musicxml', '--report', 'found.jsonl', '--jobs', '1'];
    const { code, stdout, stderr } = await handline([...args, '--fail-on', 'change'], folder.path);
    expect(code).toBe(1);
    expect(stderr).toMatch(/edition.b.bad\.musicxml/);
    expect(stdout.toString().split('Scores, worst first')[1]).toMatch(/hop[\s\S]+easy/);
    const lines = readFileSync(folder.at('found.jsonl'), 'utf8').trim().split('\n');
    expect(lines).toHaveLength(3);
    const entries = lines.map((line) => JSON.parse(line));
    for (const { review } of entries.filter((own) => own.review))
      expect([validate({ files: [{ input: 'x', review }] }), validate.errors]).toEqual([true, null]);
    expect(entries.map(({ status }) => status).sort()).toEqual(['refused', 'unchanged', 'unchanged']);
    const again = await handline(args, folder.path);
    expect([again.code, again.stderr]).toEqual([2, expect.stringMatching(/found\.jsonl: is already there/)]);
  });

  test('goes on in a report that was cut off, and does anew what was changed or reviewed otherwise', async () => {
    mkdirSync(folder.at('edition'));
    folder.put('edition/a.musicxml', HOP);
    folder.put('edition/b.musicxml', EASY);
    const args = ['review', 'edition', '--report', 'found.jsonl', '--skip-done', '--jobs', '1'];
    const lines = () => readFileSync(folder.at('found.jsonl'), 'utf8').split('\n');
    const first = await handline(args, folder.path);
    expect([first.code, lines().length]).toEqual([0, 3]);
    const [whole] = lines();
    writeFileSync(folder.at('found.jsonl'), `${whole}\n${lines()[1]!.slice(0, 50)}`);
    const second = await handline([...args, '--fail-on', 'change'], folder.path);
    // What was done is told in the table, counts for the exit code, and is not printed again.
    expect(second.code).toBe(6);
    expect(second.stdout.toString()).toMatch(
      /^edition.b\.musicxml\n[\s\S]+Scores, worst first[\s\S]+a\.musicxml[\s\S]+b\.musicxml/,
    );
    expect(lines()[0]).toBe(whole);
    expect(
      lines()
        .slice(2)
        .map((line) => (line === '' ? '' : JSON.parse(line).input)),
    ).toEqual([join('edition', 'b.musicxml'), '']);
    const third = await handline(args, folder.path);
    expect([third.stdout.toString().startsWith('Scores, worst first'), lines().length]).toEqual([true, 4]);
    await handline([...args, '--span', '8th'], folder.path);
    expect(lines()).toHaveLength(6);
    folder.put('edition/a.musicxml', EASY);
    await handline([...args, '--span', '8th'], folder.path);
    expect(lines()).toHaveLength(7);
    const alone = await handline(['review', 'edition', '--skip-done'], folder.path);
    expect([alone.code, alone.stderr]).toEqual([2, expect.stringMatching(/--skip-done goes with --report/)]);
  });

  test('takes hand and language of a student from the file of settings', async () => {
    folder.put('wide.musicxml', WIDE);
    const students = { Ida: { span: '8th', digits: 'sparse' }, Jo: { span: '11th', language: 'de' } };
    folder.put('handline.config.json', JSON.stringify({ layers: ['depth'], for: students }));
    const textFor = async (...options: string[]) =>
      (await handline(['review', 'wide.musicxml', ...options], folder.path)).stdout.toString();
    const [ida, jo] = [await textFor('--for', 'Ida'), await textFor('--for', 'Jo')];
    expect(ida).toBe(await textFor('--span', '8th'));
    expect(jo).toBe(await textFor('--span', '11th', '--language', 'de'));
    expect(ida).not.toBe(await textFor());
    expect(await textFor('--for', 'Jo', '--language', 'en')).toContain('notes have digits');
    const nobody = await handline(['review', 'wide.musicxml', '--for', 'Max'], folder.path);
    expect([nobody.code, nobody.stderr]).toEqual([2, expect.stringMatching(/knows Ida, Jo/)]);
  });

  test('knows a score by the file, not by its name', async () => {
    folder.put('hop.musicxml', HOP);
    folder.put('list.txt', 'hop.musicxml\n./hop.musicxml\n');
    const listed = await handline(['review', '@list.txt'], folder.path);
    expect(listed.stdout.toString().match(/^hop\.musicxml$/gm)).toHaveLength(1);
    const twice = await handline(['review', 'hop.musicxml', './hop.musicxml'], folder.path);
    expect([twice.code, twice.stderr]).toEqual([2, expect.stringMatching(/are the same file; give it once/)]);
  });

  test('as JSON fits the schema, errors included; as Markdown it is a page', async () => {
    folder.put('hop.musicxml', HOP);
    folder.put('bad.musicxml', '<score');
    const json = await handline(['review', 'hop.musicxml', 'bad.musicxml', '--json'], folder.path);
    const { files } = JSON.parse(json.stdout.toString());
    expect([validate({ files }), validate.errors]).toEqual([true, null]);
    expect(files[0].review).toMatchObject({ version: 1, digits: 5, levels: { 'worth changing': 1 } });
    expect(files[1].error.code).toBe('NOT_XML');
    const page = (await handline(['review', 'hop.musicxml', '--markdown'], folder.path)).stdout.toString();
    expect(page).toMatch(/^# hop\.musicxml\n\n/);
    expect(page).toContain(
      '## Worth changing (1)\n\n- **\\[1\\] m. 1, beat 2, right hand, E**  \n  2 has to leave',
    );
    expect(page).toContain('| --- | ---: |');
  });

  test('writes the findings and the easier digits into the score, and clear takes them out', async () => {
    folder.put('hop.musicxml', HOP);
    const written = await handline(['review', 'hop.musicxml', '-o', 'marked.musicxml'], folder.path);
    expect(written.code).toBe(0);
    const marked = readFileSync(folder.at('marked.musicxml'), 'utf8');
    expect(marked).toContain('>[1]</words>');
    expect(marked.match(/>\([345]\)<\/words>/g)).toHaveLength(3);
    await handline(['clear', 'marked.musicxml', '-o', 'back.musicxml'], folder.path);
    expect(readFileSync(folder.at('back.musicxml'), 'utf8')).toBe(HOP);
    const again = await handline(['review', 'hop.musicxml', '-o', 'marked.musicxml'], folder.path);
    expect(again.code).toBe(3);
    const out = await handline(['review', 'hop.musicxml', '-o', '-', '--mark', 'words'], folder.path);
    expect(out.stdout.toString()).toContain('>[1] 2 has to leave D early and hop to E</words>');
    expect(out.stderr).toContain('Worth changing (1)');
  });

  test('compares other digits and a second score', async () => {
    folder.put('hop.musicxml', HOP);
    folder.put('easy.musicxml', EASY);
    const tried = ['--try', 'm1 beat 2 right 3 4 5', '--try', 'P1 m1 right 2 - -'];
    const text = (await handline(['review', 'hop.musicxml', ...tried], folder.path)).stdout.toString();
    expect(text.match(/right hand m\. 1: \d+ mm as printed, \d+ mm with the other digits/g)).toHaveLength(2);
    expect(text).toMatch(/the others take 128\s+mm\s+less,\s+mostly\s+one\s+finger\s+again/);
    const against = await handline(['review', 'hop.musicxml', '--against', 'easy.musicxml'], folder.path);
    expect(against.stdout.toString()).toMatch(/130 mm as printed, 2 mm with the other digits/);
    const missing = await handline(['review', 'hop.musicxml', '--against', 'none.musicxml'], folder.path);
    expect(missing).toMatchObject({ code: 1 });
    expect(missing.stderr).toMatch(/--against none\.musicxml/);
  });

  test('lists whole fingerings', async () => {
    folder.put('hop.musicxml', HOP);
    const text = (
      await handline(['review', 'hop.musicxml', '--alternatives', '3'], folder.path)
    ).stdout.toString();
    const listed = text.split('Whole fingerings of right hand m. 1\n')[1]!;
    expect(listed).toMatch(/^ {2}printed: 130 mm\n {6}1 2 2 3 4\n/);
    expect(listed).toContain('1 2 3 4 5');
  });
});
