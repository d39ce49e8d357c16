import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { annotate, type Finger, planDigits } from '@handline/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { actOf } from '../../packages/cli/src/pages/stand/keys.js';
import { Notes, type Place } from '../../packages/cli/src/pages/stand/notes.js';
import type { Start } from '../../packages/cli/src/pages/stand/start.js';
import {
  asList,
  giveBack,
  NO_DIGITS,
  redo,
  setFinger,
  undo,
} from '../../packages/cli/src/pages/stand/state.js';
import { keyName, LANGUAGE_NAMES, STAND_WORDS } from '../../packages/cli/src/pages/stand/words/words.js';
import { Shown } from '../../packages/cli/src/pages/stand/workers/shown.js';
import { whyOf } from '../../packages/cli/src/pages/stand/workers/why.js';
import { handline } from '../cli/harness.js';
import { ROOT } from '../musicxml/read-source.js';
import { DEMO, folder } from './made.js';

const heads = fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd'), { minLength: 1, maxLength: 2 });
const act = fc.oneof(
  fc.record({ heads, finger: fc.integer({ min: 1, max: 5 }) }),
  fc.record({ heads }),
  fc.constantFrom('undo', 'redo'),
);

describe('the digits of the user', () => {
  it('go on, back and forth as in a list of all states', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 30 }), (acts) => {
        let history = NO_DIGITS;
        let states: Record<string, number>[] = [{}];
        let at = 0;
        for (const own of acts) {
          if (own === 'undo') {
            history = undo(history);
            at = Math.max(0, at - 1);
          } else if (own === 'redo') {
            history = redo(history);
            at = Math.min(states.length - 1, at + 1);
          } else {
            const next = { ...states[at] };
            if ('finger' in own) {
              for (const head of own.heads) next[head] = own.finger;
              history = setFinger(history, own.heads, own.finger as Finger);
            } else {
              for (const head of own.heads) delete next[head];
              history = giveBack(history, own.heads);
            }
            if (
              JSON.stringify(Object.entries(next).sort()) !==
              JSON.stringify(Object.entries(states[at]!).sort())
            ) {
              states = [...states.slice(0, at + 1), next];
              at += 1;
            }
          }
          expect(Object.fromEntries(history.present)).toEqual(states[at]);
          expect([history.past.length, history.future.length]).toEqual([at, states.length - 1 - at]);
        }
      }),
    );
  });

  it('are written in the order of the score', () => {
    const { present } = setFinger(setFinger(NO_DIGITS, ['b'], 2), ['a'], 4);
    const offsets = new Map([
      ['a', 10],
      ['b', 20],
    ]);
    expect(asList(present, offsets)).toEqual([
      { offset: 10, finger: 4 },
      { offset: 20, finger: 2 },
    ]);
  });

  it('come by the keys of the keyboard, which otherwise keep what they do', () => {
    const plain = { ctrlKey: false, metaKey: false, shiftKey: false, altKey: false };
    expect(actOf({ ...plain, key: '4' })).toEqual({ kind: 'finger', finger: 4 });
    for (const key of ['6', '0', 'a', 'Tab', 'Enter', ' ', 'constructor'])
      expect(actOf({ ...plain, key })).toBeUndefined();
    expect(actOf({ ...plain, key: 'Z', metaKey: true, shiftKey: true })).toEqual({ kind: 'redo' });
    expect(actOf({ ...plain, key: 'c', ctrlKey: true })).toBeUndefined();
    expect(actOf({ ...plain, key: '1', altKey: true })).toBeUndefined();
  });
});

describe('the notes of a marked score', () => {
  const bytes = new Uint8Array(readFileSync(DEMO));
  const { output, report } = annotate(bytes);
  const shown = new Shown(output, { language: 'en', layers: [] });
  const notes = new Notes(shown.told().lines, report, new Map());

  it('have the fingers, heads and places of the report', () => {
    const all = [...notes.all()];
    expect(all.length).toBe(report.lines.flatMap(({ slices }) => slices.flatMap(({ keys }) => keys)).length);
    const { lines } = planDigits(output);
    for (const { place, finger, midi, ids, whose } of all) {
      const key = lines[place.line]!.line.slices[place.slice]!.struck[place.key]!;
      expect({ midi, finger }).toEqual({ midi: key.key, finger: key.fixed ?? null });
      expect(ids).toEqual(key.notes.map((note) => `note-${lines[place.line]!.line.part}-${note}`));
      for (const id of ids) expect(notes.placeOf(id)).toEqual(place);
      expect(['ours', 'given']).toContain(whose);
    }
    const text = new TextDecoder().decode(bytes);
    for (const offset of notes.offsets().values()) expect(text.startsWith('<note', offset)).toBe(true);
  });

  it('are all reached by the arrow keys', () => {
    const keyOf = ({ line, slice, key }: Place) => `${line} ${slice} ${key}`;
    const seen = new Map([[keyOf(notes.first!), notes.first!]]);
    for (const place of seen.values()) {
      for (const next of [
        notes.along(place, 1),
        notes.along(place, -1),
        notes.across(place, 1),
        notes.across(place, -1),
      ]) {
        if (next && !seen.has(keyOf(next))) seen.set(keyOf(next), next);
      }
    }
    expect(seen.size).toBe([...notes.all()].length);
  });

  it('are explained by the next best finger of the report, and by movement of the same mechanics', () => {
    const { lines } = annotate(bytes, { nextBest: true }).report;
    const slices = lines[0]!.slices.slice(0, 4);
    for (const { index, nextBest } of slices) {
      const { other, cost, kinds } = whyOf(shown, 0, index, 0);
      expect({ other, cost }).toEqual({ other: nextBest![0]!.finger, cost: nextBest![0]!.cost });
      expect(Object.values(kinds!).every(Number.isFinite)).toBe(true);
    }
  });
});

describe('handline stand', () => {
  const made = async (...args: string[]) => {
    const path = join(folder, 'stand.html');
    const { code, stderr } = await handline(['stand', ...args, '-o', path, '--force'], folder);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const html = readFileSync(path, 'utf8');
    const [, start = ''] = /<script type="application\/json" id="start">(.*?)<\/script>/.exec(html)!;
    return { html, start: JSON.parse(start) as Start };
  };

  it('is one page that loads nothing, whose scripts run by their hash alone', async () => {
    const { html, start } = await made();
    expect(start).toEqual({ marking: {} });
    const [, policy = ''] = /Content-Security-Policy" content="([^"]*)"/.exec(html)!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("connect-src 'none'");
    expect(policy).toMatch(/script-src 'sha256-[^']+' 'wasm-unsafe-eval';/);
    const markup = html.replaceAll(/<script[^>]*>[\s\S]*?<\/script>/g, '');
    expect(markup).not.toMatch(/<link|<iframe|<img|\son\w+=|url\(|@import|(?:src|href)=/i);
    // The LGPL asks for its own text and that of the GPL, whole, with a work that contains such a library.
    for (const name of ['verovio', 'LGPL-3.0', 'GPL-3.0']) {
      const text = readFileSync(join(ROOT, `packages/cli/src/pages/stand/licences/${name}.txt`), 'utf8');
      expect(html.split(text.trim()).length, name).toBe(2);
      expect(text).toMatch(name === 'verovio' ? /Laurent Pugin/ : /Version 3, 29 June 2007/);
    }
    console.log(`an empty stand: ${(html.length / 1024 / 1024).toFixed(2)} MiB`);
    expect(html.length).toBeLessThan(12 * 1024 * 1024);
  });

  it('begins with a score and with choices', async () => {
    const { start } = await made(
      DEMO,
      '--span',
      'right=9th,left=190',
      '--layers',
      'depth',
      '--language',
      'de',
    );
    expect(start.marking).toEqual({ span: { right: '9th', left: '190' }, layers: ['depth'], language: 'de' });
    expect(start.score!.name).toBe('kelp-street-tunes.musicxml');
    expect(Buffer.compare(Buffer.from(start.score!.base64, 'base64'), readFileSync(DEMO))).toBe(0);
  });

  it('begins with the name of the student that it is for', async () => {
    const config = join(folder, 'stand-students.json');
    writeFileSync(config, JSON.stringify({ for: { Ida: { span: '8th' } } }));
    const { start } = await made('--config', config, '--for', 'Ida');
    expect(start).toEqual({ marking: { span: '8th' }, student: 'Ida' });
  });

  it('refuses what is no score, more than one, and another kind of name', async () => {
    const bad = join(folder, 'bad.musicxml');
    const path = join(folder, 'no-stand.html');
    writeFileSync(bad, '<html/>');
    expect((await handline(['stand', bad, '-o', path], folder)).code).toBe(1);
    expect((await handline(['stand', DEMO, DEMO, '-o', path], folder)).code).toBe(2);
    expect((await handline(['stand', DEMO, '--span', '90th', '-o', path], folder)).code).toBe(2);
    expect((await handline(['stand', '--span', 'left=90th', '-o', path], folder)).code).toBe(2);
    expect((await handline(['stand', '-o', join(folder, 'x.pdf')], folder)).code).toBe(2);
    expect(existsSync(path)).toBe(false);
  });

  it('names keys in every language as they are written', () => {
    expect(Object.keys(LANGUAGE_NAMES)).toEqual(Object.keys(STAND_WORDS));
    const { en, de, fr } = STAND_WORDS;
    expect(keyName(en, 60, 28)).toBe('C4');
    expect(keyName(en, 66, 31)).toBe('F♯4');
    expect(keyName(en, 59, 28)).toBe('C♭4');
    expect(keyName(de, 70, 34)).toBe('B4');
    expect(keyName(de, 71, 34)).toBe('H4');
    expect(keyName(fr, 61, undefined)).toBe('do♯4');
  });
});
