import { readFileSync, rmSync } from 'node:fs';
import { Readable, Writable } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { run } from '../../packages/cli/src/program.js';
import { DEMO, handline, spawned, workFolder } from './harness.js';

const folder = workFolder();
const SMALL = ['--octaves', '1', '--rhythm', 'eighth'];

describe('drill', () => {
  test('writes a marked sheet and says what it holds', async () => {
    const { code, stdout, stderr } = await spawned(
      ['drill', '--keys', 'D', ...SMALL, '-o', 'd.musicxml'],
      folder.path,
    );
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout.toString()).toMatch(/^sheet -> d\.musicxml\n/);
    expect(stdout.toString()).toMatch(/right hand +15 of 15/);
    expect(stdout.toString()).toMatch(/Stop at pain, numbness or fatigue/);
    const sheet = readFileSync(folder.at('d.musicxml'), 'utf8');
    expect(sheet).toContain('>D major<');
    expect(sheet).toContain('numbness or fatigue');
    expect(sheet.match(/<fingering/g)).toHaveLength(30);
  });

  test('writes to standard output, the summary to standard error', async () => {
    const { code, stdout, stderr } = await handline(['drill', ...SMALL], folder.path);
    expect(code).toBe(0);
    expect(stdout.toString()).toMatch(/^<\?xml /);
    expect(stderr).toMatch(/^sheet -> standard output/);
  });

  test('does not overwrite a file unless told to', async () => {
    folder.put('there.musicxml', 'mine');
    const refused = await handline(['drill', ...SMALL, '-o', 'there.musicxml'], folder.path);
    expect(refused.code).toBe(3);
    expect(readFileSync(folder.at('there.musicxml'), 'utf8')).toBe('mine');
    expect((await handline(['drill', ...SMALL, '-o', 'there.musicxml', '--force'], folder.path)).code).toBe(
      0,
    );
  });

  test('a name that says another kind of file is refused, and so is a page that is there', async () => {
    const pdf = await handline(['drill', ...SMALL, '-o', 'sheet.pdf'], folder.path);
    expect(pdf.code).toBe(2);
    expect(pdf.stderr).toMatch(/--output sheet\.pdf: the result is MusicXML/);
    const compressed = await handline(['drill', ...SMALL, '-o', 'sheet.mxl'], folder.path);
    expect(compressed.code).toBe(1);
    expect(compressed.stderr).toMatch(/not compressed, nor will its result be; name it \.musicxml/);
    folder.put('there.html', 'mine');
    const page = await handline(
      ['drill', ...SMALL, '-o', 'not.musicxml', '--page', 'there.html'],
      folder.path,
    );
    expect(page.code).toBe(3);
    expect(page.stderr).toMatch(/^handline: there\.html: [^\n]+\n$/);
    expect(readFileSync(folder.at('there.html'), 'utf8')).toBe('mine');
    const names = folder.names();
    for (const name of ['sheet.pdf', 'sheet.mxl', 'not.musicxml']) expect(names).not.toContain(name);
  });

  test('takes a motive from a file of degrees, and from a score', async () => {
    folder.put('own.json', JSON.stringify({ degrees: [1, 3, 2, 4] }));
    const degrees = await handline(
      ['drill', '--motive', 'own.json', '--steps', '3', '-o', 'a.musicxml'],
      folder.path,
    );
    expect({ code: degrees.code, stderr: degrees.stderr }).toEqual({ code: 0, stderr: '' });
    expect(degrees.stdout.toString()).toMatch(/right hand +12 of 12/);
    const score = ['drill', '--motive', DEMO, '--measures', '1', '--steps', '2', '-o', 'b.musicxml'];
    expect((await handline(score, folder.path)).code).toBe(0);
    const study = ['drill', '--from', DEMO, '--measures', '1-2', '--keys', 'C,A', '-o', 'c.musicxml'];
    expect((await handline(study, folder.path)).code).toBe(0);
    expect(readFileSync(folder.at('c.musicxml'), 'utf8')).toContain('From beat to beat');
  });

  test('shows a bar on a terminal, and only there', async () => {
    const { stderr } = await handline(['drill', ...SMALL, '-o', 'no-bar.musicxml'], folder.path);
    expect(stderr).toBe('');
    let shown = '';
    const stream = (write: (text: string) => void, isTTY: boolean) =>
      Object.assign(
        new Writable({
          write(chunk: Buffer, _, done) {
            write(chunk.toString());
            done();
          },
        }),
        { isTTY },
      );
    const path = folder.at('bar.musicxml');
    const code = await run(['drill', '--keys', 'C,G', ...SMALL, '-o', path], {
      stdin: Readable.from([]),
      stdout: stream(() => undefined, false),
      stderr: stream((text) => {
        shown += text;
      }, true),
    });
    expect(code).toBe(0);
    expect(shown).toMatch(/░{40} composing/);
    expect(shown).toMatch(/█{20}░{20} composing/);
    expect(shown).toMatch(/marking/);
    // The cursor is seen again, and the line of the bar is cleared at the end.
    const [seen, cleared] = ['\u001b[?25h', '\u001b[2K'];
    expect(shown.slice(shown.lastIndexOf(seen))).toContain(cleared);
  });

  test('the page to print has contents that lead to their systems, and the digits of the sheet', async () => {
    const options = ['drill', '--keys', 'D,Bb', ...SMALL, '--language', 'de', '--title', 'Für <Ida>'];
    const { code, stdout, stderr } = await handline(
      [...options, '-o', 'p.musicxml', '--page', 'p.html'],
      folder.path,
    );
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout.toString()).toMatch(/\nsheet -> p\.html\n/);
    const page = readFileSync(folder.at('p.html'), 'utf8');
    const links = [...page.matchAll(/<li><a href="#([^"]+)">([^<]+)<\/a> <span>([^<]+)</g)];
    expect(links.map(([, , heading, place]) => [heading, place])).toEqual([
      ['D-Dur', 'Takt 1'],
      ['B-Dur', 'Takt 3'],
    ]);
    const systems = links.map(([, id]) => new RegExp(`id="${id}"><figcaption>([^<]+)`).exec(page)?.[1]);
    expect(systems).toEqual(['Takte 1–2', 'Takte 3–4']);
    expect(page).toContain('Für &lt;Ida&gt;');
    expect(page).not.toContain('<script');
    const digits = readFileSync(folder.at('p.musicxml'), 'utf8').match(/<fingering/g)!.length;
    expect(page.match(/class="fing"/g)).toHaveLength(digits);
  });

  test('the settings of a student are those of the sheet', async () => {
    const settings = { existing: 'keep', for: { Ida: { language: 'it', digits: 'none', strict: true } } };
    folder.put('handline.config.json', JSON.stringify(settings));
    const sheet = async (...args: string[]) =>
      (await handline(['drill', ...SMALL, ...args], folder.path)).stdout.toString();
    const ida = await sheet('--for', 'Ida');
    const typed = await sheet('--language', 'it', '--digits', 'none');
    rmSync(folder.at('handline.config.json'));
    expect(ida).toContain('>Do maggiore<');
    expect(ida).not.toContain('<fingering');
    expect(typed).toBe(ida);
  });

  test.each<[string, string[], RegExp]>([
    ['unknown key', ['--keys', 'H'], /"H" is not a key/],
    ['a key with too many sharps', ['--keys', 'G#'], /would need 8 sharps; give Ab/],
    ['40 octaves', ['--octaves', '40'], /octaves: 40 is not allowed/],
    ['off the keyboard', ['--start', '8'], /lies beyond the keyboard/],
    ['unknown kind', ['--kinds', 'majro'], /"majro" is not allowed/],
    ['unknown rhythm', ['--rhythm', 'fast'], /"fast" is no note value/],
    ['bad metre', ['--metre', '4/7'], /metre: "4\/7" is not allowed/],
    ['bad tempo', ['--tempo', '0'], /tempo: 0 is not allowed/],
    ['lengths turned round', ['--fragments', '9-4'], /shorter length first/],
    [
      'too many fragments',
      ['--fragments', '4-9', '--keys', 'all'],
      /these would be 5544, and a sheet takes 2000/,
    ],
    ['no lengths', ['--fragments', 'many'], /--fragments many/],
    ['degrees without fragments', ['--degrees', '1'], /--degrees speaks of fragments/],
    [
      'thirds without a scale for them',
      ['--double', 'thirds', '--kinds', 'minor-pentatonic'],
      /^handline: --kinds: a scale of 5 notes has no thirds; /,
    ],
    ['awkward scales', ['--awkward', '3', '--patterns', 'scales'], /do not include fragments/],
    ['sparse fragments', ['--fragments', '5', '--digits', 'sparse'], /give all or none/],
    ['bad span', ['--span', 'wide'], /span: "wide" is not allowed/],
    ['four octaves each way', ['--motion', 'contrary', '--octaves', '4'], /contrary motion takes 3 at most/],
    ['a page that is no page', ['--page', 'sheet.pdf'], /--page sheet\.pdf: the result is a page of HTML/],
    ['one name for two', ['--page', 'x.musicxml'], /name it \.html/],
    ['nobody of that name', ['--for', 'Ida'], /--for Ida needs handline\.config\.json/],
    ['a score', ['waltz.musicxml'], /takes no score/],
    ['empty motive', ['--motive', 'empty.json'], /empty\.json: --motive degrees: \[\] is not allowed/],
    ['no motive', ['--motive', 'nothing.json'], /holds no degrees/],
    ['broken motive', ['--motive', 'broken.json'], /is not valid JSON/],
    ['measures of nothing', ['--measures', '3'], /--measures speaks of a score/],
    ['two sources', ['--motive', 'a.json', '--from', 'b.musicxml'], /exclude each other/],
    ['options of mark', ['--existing', 'keep'], /--existing is not an option of handline drill/],
  ])('%s: one line, nothing written', async (_, args, message) => {
    folder.put('empty.json', '{"degrees": []}');
    folder.put('nothing.json', '[1, 2]');
    folder.put('broken.json', '{');
    const before = folder.names();
    const { code, stdout, stderr } = await handline(['drill', ...args, '-o', 'x.musicxml'], folder.path);
    expect(code).toBe(2);
    expect(stdout.length).toBe(0);
    expect(stderr).toMatch(/^handline: [^\n]+\n$/);
    expect(stderr).toMatch(message);
    expect(folder.names()).toEqual(before);
  });
});
