import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeEach, describe, expect, test } from 'vitest';
import yargs from 'yargs';
import { FLAGS, TEXTS } from '../../packages/cli/src/options/config.js';
import { addMarkOptions } from '../../packages/cli/src/options/mark-options.js';
import { handline, scale, workFolder } from './harness.js';

const folder = workFolder();
const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));
const read = (path: string) => readFileSync(at(path), 'utf8');
const schema = JSON.parse(read('packages/cli/handline.config.schema.json'));
const example = /```json\n([^`]*"for"[^`]*)```/.exec(read('README.md'))?.[1] ?? '';

beforeEach(() => {
  folder.put('a.musicxml', scale());
});

async function marked(...args: string[]): Promise<string> {
  const { code, stdout, stderr } = await handline(['mark', 'a.musicxml', '--quiet', ...args], folder.path);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return stdout.toString();
}

describe('the file of settings', () => {
  test('the command line goes before the student, the student before the rest of the file', async () => {
    const typed = {
      german: await marked('--language', 'de', '--legend', '--layers', 'all'),
      sparse: await marked('--language', 'de', '--legend', '--layers', 'all', '--digits', 'sparse'),
      french: await marked('--language', 'fr', '--legend', '--layers', 'all', '--digits', 'sparse'),
    };
    const italian = await marked('--language', 'it', '--legend', '--layers', 'all');
    expect(new Set([...Object.values(typed), italian]).size).toBe(4);
    const settings = {
      $schema: './node_modules/handline/handline.config.schema.json',
      language: 'de',
      legend: true,
      layers: ['depth', 'crossing', 'carry', 'contour', 'roll'],
      for: { Ida: { digits: 'sparse', span: { right: 'small', left: 190 } }, Jo: { language: 'it' } },
    };
    folder.put('handline.config.json', JSON.stringify(settings));
    expect(await marked()).toBe(typed.german);
    expect(await marked('--for', 'Ida', '--span', 'medium')).toBe(typed.sparse);
    expect(await marked('--for', 'Ida', '--span', 'medium', '--language', 'fr')).toBe(typed.french);
    // The file says German of everybody, Italian of this student.
    expect(await marked('--for', 'Jo')).toBe(italian);
    mkdirSync(folder.at('sub'));
    const below = await handline(['mark', '../a.musicxml', '--quiet'], folder.at('sub'));
    expect(below.stdout.toString()).toBe(typed.german);
    expect(new Ajv2020().validate(schema, settings)).toBe(true);
  });

  test('clear speaks its language as well', async () => {
    folder.put('handline.config.json', '{"language": "de"}');
    const told = async (...more: string[]) =>
      (await handline(['clear', 'a.musicxml', '-o', 'c.musicxml', '--force', ...more], folder.path)).stdout;
    expect((await told()).toString()).toContain('Es fanden sich keine Zeichen von Handline.');
    expect((await told('--language', 'fr')).toString()).toContain('Aucune marque de Handline');
  });

  test('a file of words is found beside it', async () => {
    mkdirSync(folder.at('set'));
    folder.put('set/words.json', '{"in": "deeper", "far-in": "deepest", "out": "shallower"}');
    folder.put('set/own.json', '{"wording": "words.json"}');
    expect(await marked('--config', 'set/own.json')).toBe(await marked('--wording', 'set/words.json'));
  });

  test.each<[string, string[], RegExp]>([
    ['{', [], /json: line 1, column 2: is not valid JSON/],
    ['', [], /json: line 1, column 1: is not valid JSON/],
    ['{\n  "span": "9th",\n  "language": de\n}\n', [], /json: line 3, column 15: is not valid JSON/],
    ['{\n  "span": "9th"\n  "hands": "both"\n}', [], /json: line 3, column 3: is not valid JSON/],
    ['{\n  "for": {\n    "Ida": {\n      "span": "9th,\n', [], /json: line 4, column 20: is not valid JSON/],
    ['{\n  "span":\n    "9th"\n}\nend', [], /json: line 5, column 1: is not valid JSON/],
    ['{\r\n  "span": "9th",\r\n', [], /json: line 2, column 17: is not valid JSON/],
    ['{"span": "9th", "digits": "a\\q"}', [], /json: line 1, column 30: is not valid JSON/],
    ['{"span": 9.}', [], /json: line 1, column 12: is not valid JSON/],
    ['{"legend": ture}', [], /json: line 1, column 13: is not valid JSON/],
    ['[]', [], /does not hold an object/],
    ['{"spam": 1}', [], /spam is not a setting; there are hands, /],
    ['{"legend": "yes"}', [], /legend is true or false/],
    ['{"span": null}', [], /span is neither a text nor a number/],
    ['{"span": 8}', [], /json: span 8: write 8th for the interval/],
    ['{"digits": "few"}', [], /handline\.config\.json: digits: "few" is not allowed/],
    ['{"for": {"Ida": {}}}', ['--for', 'Jo'], /--for Jo: .* knows Ida \(/],
    ['{"for": {"Jo": {}, "Ida": {}}}', ['--for', 'ida'], /--for ida: .* knows Jo, Ida; did you mean Ida\?/],
    ['{}', ['--for', 'Nobody'], /has settings for nobody \(/],
    ['{"for": {"Ida": {"digits": "few"}}}', ['--for', 'Ida'], /config\.json: for Ida: digits: "few" is not/],
    ['{"for": {"Ida": {"span": "wide"}}}', ['--for', 'Ida'], /config\.json: for Ida: span: "wide" is not/],
    ['{"for": {"Ida": {"layers": "smell"}}}', ['--for', 'Ida'], /json: for Ida: layers smell: there is no/],
    ['{"for": {"Ida": {"spam": 1}}}', ['--for', 'Ida'], /config\.json: for Ida: spam is not a setting/],
    ['{"for": {"Ida": {"spam": 1}}}', [], /json: for Ida: spam is not a setting; .*; did you mean span\?/],
    [
      '{"for": {"Ida": {"digits": "few"}, "Jo": {}}}',
      ['--for', 'Jo'],
      /for Ida: digits: "few" is not allowed/,
    ],
    ['{"languge": "de"}', [], /languge is not a setting; .*; did you mean language\?/],
    ['{"forr": {}}', [], /forr is not a setting; .*; did you mean for\?/],
    ['{"language": "ed"}', [], /language: "ed" is not allowed; give en, de, /],
    ['{"share-hands": true, "sharehands": true}', [], /did you mean share-hands\?/],
    ['{"digits": "sprse"}', [], /digits: "sprse" is .*; did you mean sparse\?/],
    ['{"students": {"Ida": {}}}', ['--for', 'Ida'], /students is not a setting/],
    ['{"for": {"Ida": {"for": {}}}}', ['--for', 'Ida'], /for is not a setting/],
    ['{}', ['--config', 'none.json'], /none\.json: there is no such file/],
  ])('%s with %j is refused', async (content, args, message) => {
    folder.put('handline.config.json', content);
    const { code, stderr } = await handline(['mark', 'a.musicxml', '-o', 'x.xml', ...args], folder.path);
    expect(code).toBe(2);
    expect(stderr).toMatch(/^handline: [^\n]+\n$/);
    expect(stderr).toMatch(message);
    expect(folder.has('x.xml')).toBe(false);
  });

  test('its schema knows the options of mark and their values, and takes the example of the README', () => {
    const options = (
      addMarkOptions(yargs()) as unknown as {
        getOptions(): { key: object; choices: Record<string, string[]> };
      }
    ).getOptions();
    const own = schema.$defs.settings.properties as Record<string, { enum?: string[] }>;
    // Measures are a score's own.
    const typed = ['for', 'config', 'measures', 'help', 'version'];
    const all = Object.keys(options.key).filter((name) => !typed.includes(name));
    expect([...TEXTS, ...FLAGS].sort()).toEqual(all.sort());
    expect(Object.keys(own).sort()).toEqual(all);
    for (const [name, { enum: values }] of Object.entries(own)) {
      expect([name, values]).toEqual([name, options.choices[name]]);
    }
    const valid = new Ajv2020().compile(schema);
    expect(valid(JSON.parse(example))).toBe(true);
    for (const wrong of [{ spam: 1 }, { digits: 'few' }, { for: { Ida: { spam: 1 } } }]) {
      expect(valid(wrong)).toBe(false);
    }
  });
});

test('the committed file that npm links runs the command', () => {
  const { bin } = JSON.parse(read('packages/cli/package.json'));
  const { stdout, status } = spawnSync(at(`packages/cli/${bin.handline}`), ['-V'], { encoding: 'utf8' });
  expect({ stdout, status }).toEqual({
    stdout: `${JSON.parse(read('packages/cli/package.json')).version}\n`,
    status: 0,
  });
});
