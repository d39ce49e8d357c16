import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { DEMO, handline, spawned, workFolder } from './harness.js';

const folder = workFolder();
const source = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const readme = source('README.md');

/** Lines without indentation: the README shows the demo's lines flush left. */
const flat = (text: string) => text.replace(/^ +/gm, '').trim();

describe('the README is true', () => {
  let help = '';

  beforeAll(async () => {
    help = (await spawned(['mark', '--help'], '.')).stdout.toString();
  });

  test('its example before and after has the form of the demo, whichever digit and cue the weights choose', async () => {
    const [before = '', after = ''] = [...readme.matchAll(/```xml\n(.*?)```/gs)].map((match) =>
      flat(match[1] ?? ''),
    );
    const marked = await handline(['mark', DEMO, '--quiet', '-o', '-'], folder.path);
    const form = (text: string) =>
      flat(text)
        .replace(/<\?handline (digit|cue) [^?]*\?>/g, '<?handline $1 ...?>')
        .replace(/>[1-5]<\/fingering>/g, '>...</fingering>')
        .replace(/(<words color="#000001">)[^<]*/g, '$1...');
    expect(flat(readFileSync(DEMO, 'utf8'))).toContain(before);
    const [cue = '', note = ''] = form(after).split(/(?=^<note>)/m);
    const whole = form(marked.stdout.toString());
    expect([cue.includes('<words'), note.includes('<fingering')]).toEqual([true, true]);
    expect([whole.includes(cue), whole.includes(note)]).toEqual([true, true]);
  });

  test('it names every option of mark, and no other', () => {
    const known = new Set(help.match(/--[a-z-]+/g));
    const told = new Set(readme.match(/(?<![a-z])--[a-z]+(?:-[a-z]+)*/g));
    known.delete('--version');
    expect([...told].filter((name) => name !== '--version').sort()).toEqual([...known].sort());
  });

  test('it explains every code of an error or warning', () => {
    const union = source('packages/core/src/score/errors.ts').matchAll(/^ {2}\| '([A-Z_]+)'/gm);
    const codes = [...union].map((match) => match[1]);
    expect(codes.length).toBeGreaterThan(15);
    for (const code of codes) expect(readme).toContain(`| \`${code}\` |`);
  });

  test('it and the help list the same exit codes', () => {
    const told = [...readme.matchAll(/^\| (\d) \| /gm)].map((match) => match[1]);
    expect(told).toEqual(['0', '1', '2', '3', '4']);
    for (const code of told) expect(help).toMatch(new RegExp(`[:;]\\s+${code}\\s`));
  });

  test('its limits are core’s', () => {
    const limits = source('packages/core/src/options/limits.ts');
    for (const name of ['maxDepth', 'maxNotes', 'maxRatio']) {
      const value = new RegExp(`${name}: ([\\d_]+),`).exec(limits)?.[1]?.replaceAll('_', '');
      expect(readme).toContain(
        `| ${Number(value).toLocaleString('en')} | \`--max-${name.slice(3).toLowerCase()}\` |`,
      );
    }
    for (const name of ['MAX_ARCHIVE_ENTRIES', 'MAX_DURATION_QUARTERS', 'MAX_SCORE_QUARTERS', 'MAX_STAVES']) {
      const value = Number(new RegExp(`${name} = ([\\d_]+);`).exec(limits)?.[1]?.replaceAll('_', ''));
      expect(readme).toMatch(new RegExp(`\\b${value.toLocaleString('en')}(?:th)?\\b`));
    }
    expect(limits).toContain('{ maxBytes: 500_000_000, maxDepth: 1000 }');
    for (const most of ['500,000,000', '1,000']) expect(readme).toContain(`(at most ${most})`);
    expect(limits).toContain('maxBytes: 256 * 1024 * 1024');
    expect(readme).toContain('268,435,456');
  });
});
