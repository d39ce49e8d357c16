import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as core from '@handline/core';
import { expect, it } from 'vitest';

const INDEX = readFileSync(
  fileURLToPath(new URL('../../packages/core/src/index.ts', import.meta.url)),
  'utf8',
);

it('the public values of the library are these', () => {
  expect(Object.keys(core).sort()).toEqual([
    'HandlineError',
    'LEVELS',
    'THRESHOLDS',
    'alternatives',
    'annotate',
    'clear',
    'compare',
    'describe',
    'fingerLine',
    'handModel',
    'markReview',
    'planDigits',
    'planMotion',
    'readLines',
    'reasonText',
    'review',
    'reviewMarkdown',
    'reviewText',
    'reviewsTable',
  ]);
});

it('every export is named, values and types', () => {
  expect(INDEX).not.toMatch(/export \*/);
  const names = [...INDEX.matchAll(/export (?:type )?\{([^}]*)\}/g)]
    .flatMap(([, list]) => list!.split(','))
    .map((name) => name.replace(/\btype\b/, '').trim())
    .filter((name) => name !== '');
  expect(new Set(names).size).toBe(names.length);
  expect(names.sort()).toEqual(
    [
      ...Object.keys(core),
      'At',
      'CauseName',
      'Changed',
      'Compared',
      'ComparisonReport',
      'FingeredOnset',
      'Kind',
      'Level',
      'MarkReviewOptions',
      'Movement',
      'NoteAt',
      'PassageReport',
      'RemedyReport',
      'Review',
      'ReviewFinding',
      'ReviewOptions',
      'ReviewTextOptions',
      'ReviewedScore',
      'Span',
      'Thresholds',
      'Trial',
      'WholeFingering',
      'AlternativesOptions',
      'AnnotateOptions',
      'Annotated',
      'ClearOptions',
      'Cleared',
      'Crossing',
      'Density',
      'DepthCause',
      'DepthReason',
      'ErrorCode',
      'ErrorDetails',
      'Finding',
      'Finger',
      'FingerDepth',
      'FingerOptions',
      'Fingered',
      'FingeringDoubt',
      'Flow',
      'Fraction',
      'GivenFingers',
      'Hand',
      'HandModel',
      'Join',
      'Language',
      'Layer',
      'Limits',
      'Line',
      'LineFingering',
      'LineOptions',
      'LineReport',
      'Criterion',
      'MotionFinding',
      'MotionPlan',
      'Ornamented',
      'Ornaments',
      'Place',
      'PlannedLine',
      'PlannedLines',
      'PlayingContext',
      'ReadLine',
      'ReadLines',
      'Report',
      'Shared',
      'Slice',
      'SliceFingering',
      'SliceKey',
      'SliceMotion',
      'SliceReport',
      'SpanOption',
      'Spelling',
      'Unreachable',
      'Warning',
      'WarningCode',
    ].sort(),
  );
});
