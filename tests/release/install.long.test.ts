import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { annotate } from '@handline/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FIXTURES } from '../scores.js';
import { ROOT, tool } from './tools.js';

const DEMO = `${FIXTURES}demo/kelp-street-tunes.musicxml`;
const project = mkdtempSync(join(tmpdir(), 'handline-install-'));
const at = (path: string) => join(project, path);
let packed: string[] = [];

function succeed(name: string, args: readonly string[], cwd = project): string {
  const { status, said } = tool(name, args, cwd);
  expect({ command: [name, ...args].join(' '), status, said: status === 0 ? '' : said }).toMatchObject({
    status: 0,
    said: '',
  });
  return said;
}

// An empty project, and in it what npm would publish.
beforeAll(() => {
  for (const folder of ['core', 'cli'])
    succeed('npm', ['pack', '--silent', '--pack-destination', project], `${ROOT}packages/${folder}`);
  packed = readdirSync(project)
    .filter((name) => name.endsWith('.tgz'))
    .sort();
  writeFileSync(at('package.json'), '{ "name": "empty", "private": true, "type": "module" }\n');
  const install = ['install', '--prefer-offline', '--no-audit', '--no-fund', '--strict-peer-deps'];
  succeed('npm', [...install, ...packed.map((name) => `./${name}`)]);
  cpSync(at('node_modules/@handline/core/examples'), at('examples'), { recursive: true });
});
afterAll(() => rmSync(project, { recursive: true }));

describe('the packed packages in an empty project', () => {
  it('run their examples: ES modules, CommonJS, a worker', () => {
    const node = (script: string, ...args: string[]) =>
      succeed(process.execPath, [`examples/${script}`, ...args]);
    expect(node('mark.mjs', DEMO, 'marked.xml')).toContain('cleared: the same bytes');
    expect(node('async.node.mjs', DEMO, 'async.xml')).toMatch(/^0 % reading.*fingering right.*100 %/s);
    expect(readFileSync(at('async.xml'))).toEqual(
      Buffer.from(annotate(readFileSync(DEMO), { file: DEMO }).output),
    );
    expect(node('require.cjs', DEMO)).toMatch(/characters instead of/);
    expect(node('stages.mjs', DEMO)).toContain('mm equivalents');
    expect(node('notes.mjs', DEMO)).toMatch(
      /measure 1, beat 1\/1, staff 1, voice 1: line \d+, key \d+, finger \d \(ours\)/,
    );
  });

  it('run the command', () => {
    const bin = at('node_modules/.bin/handline');
    expect(succeed(bin, ['--version']).trim()).toMatch(/^\d+\.\d+\.\d+$/);
    succeed(bin, ['mark', DEMO, '-o', 'command.xml']);
    succeed(bin, ['clear', 'command.xml', '-o', 'cleared.xml']);
    expect(readFileSync(at('cleared.xml'))).toEqual(readFileSync(DEMO));
  });

  /** What both compilers, the one before the present and the present one, say of a file. */
  function compiled(file: string, moduleResolution: string, lib: readonly string[]) {
    const module = moduleResolution === 'bundler' ? 'esnext' : moduleResolution;
    // No types of Node and no web platform are needed, and nothing of the package is left unchecked.
    const settings = {
      noEmit: true,
      strict: true,
      target: 'es2022',
      types: [],
      lib,
      module,
      moduleResolution,
    };
    const strictest = {
      exactOptionalPropertyTypes: true,
      noUncheckedIndexedAccess: true,
      skipLibCheck: false,
    };
    const options = { ...settings, ...strictest, verbatimModuleSyntax: !file.endsWith('.cts') };
    writeFileSync(at('tsconfig.json'), JSON.stringify({ compilerOptions: options, files: [file] }));
    return ['tsc', `${ROOT}node_modules/.bin/tsc`].map((name) => tool(name, ['-p', '.'], project));
  }

  it.each([
    ['nodenext', ['es2022']],
    ['nodenext', ['es2022', 'dom']],
    ['bundler', ['es2022', 'dom']],
  ])('have types under the strictest settings: %s, %s', (moduleResolution, lib) => {
    for (const ran of compiled('examples/typed.ts', moduleResolution, lib))
      expect(ran).toEqual({ status: 0, said: '' });
  });

  it.each(['node16', 'nodenext'])('have types for CommonJS: %s', (moduleResolution) => {
    const code =
      "import core = require('@handline/core');\nexport const own: string = core.annotate('').output;\n";
    writeFileSync(at('required.cts'), code);
    for (const ran of compiled('required.cts', moduleResolution, ['es2022']))
      expect(ran).toEqual({ status: 0, said: '' });
  });

  it('are loaded by a Node.js that does not require ES modules', () => {
    succeed(process.execPath, ['--no-experimental-require-module', 'examples/require.cjs', DEMO]);
  });

  it('fail a program that takes the output for what it is not', () => {
    writeFileSync(
      at('wrong.ts'),
      "import { annotate } from '@handline/core';\nexport const own: string = annotate(new Uint8Array()).output;\n",
    );
    for (const { said } of compiled('wrong.ts', 'nodenext', ['es2022'])) expect(said).toContain('TS2322');
  });

  it('are clean for publint and for attw', () => {
    for (const name of ['@handline/core', 'handline'])
      succeed('publint', ['--strict', '--pack', 'false', at(`node_modules/${name}`)]);
    // The command has nothing to import.
    const core = packed.find((name) => name.startsWith('handline-core-'));
    const { problems, analysis } = JSON.parse(
      succeed('attw', [core!, '--profile', 'strict', '--format', 'json']),
    );
    expect(problems).toEqual({});
    const kinds = analysis.entrypoints['.'].resolutions;
    expect(Object.keys(kinds).sort()).toEqual(['bundler', 'node10', 'node16-cjs', 'node16-esm']);
    expect(kinds['node16-cjs'].resolution.fileName).toMatch(/index\.d\.cts$/);
  });
});
