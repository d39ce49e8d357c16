import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as core from '@handline/core';
import { expect, it } from 'vitest';

const text = (path: string) =>
  readFileSync(fileURLToPath(new URL(`../../packages/core/${path}`, import.meta.url)), 'utf8');
const INDEX = text('src/index.ts');
/** Held against the declarations themselves in the long rounds. */
const API = text('api/core.api.md');

it('the public values of the library are these', () => {
  expect(Object.keys(core).sort()).toEqual([
    'HandlineError',
    'LEVELS',
    'REPORT_VERSION',
    'THRESHOLDS',
    'WorkerError',
    'alternatives',
    'annotate',
    'annotateAsync',
    'beatText',
    'carryLine',
    'cautionText',
    'clear',
    'compactReport',
    'compare',
    'cueMeanings',
    'depthRibbon',
    'describe',
    'drill',
    'findingTexts',
    'fingerLine',
    'handModel',
    'isUpbeat',
    'keyboardView',
    'labelNotes',
    'markReview',
    'movementNames',
    'planDigits',
    'planMotion',
    'readLines',
    'reasonText',
    'review',
    'reviewMarkdown',
    'reviewText',
    'reviewsTable',
    'serveAnnotate',
    'setDigits',
    'sumOfMovements',
    'warningText',
  ]);
});

it('every export is named, values and types, and stands in the reviewed report (npm run api writes it)', () => {
  expect(INDEX).not.toMatch(/export \*/);
  const names = [...INDEX.matchAll(/export (?:type )?\{([^}]*)\}/g)]
    .flatMap(([, list]) => list!.split(','))
    .map((name) => name.replace(/\btype\b/, '').trim())
    .filter((name) => name !== '');
  expect(new Set(names).size).toBe(names.length);
  const reviewed = [
    ...API.matchAll(/^export (?:class|const|function|interface|type) (\w+)/gm),
    // A name that the web platform has as well.
    ...API.matchAll(/^export \{ \w+ as (\w+) \}/gm),
  ];
  expect(names.sort()).toEqual(reviewed.map(([, name]) => name).sort());
});
