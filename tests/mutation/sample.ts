import { createHash } from 'node:crypto';
import type { Mutant } from '@stryker-mutator/api/core';

/**
 * Whether a mutant is one of the sample that holds this share of all mutants: by a hash of what it changes and where, so that
 * the same mutants are drawn again until their own source changes, and others by another seed.
 */
export function isSampled(mutant: Mutant, share: number, seed: number): boolean {
  const { fileName, location, mutatorName, replacement } = mutant;
  const file = fileName.slice(fileName.indexOf('packages/core/src/'));
  const { start, end } = location;
  const place = [start.line, start.column, end.line, end.column];
  const hash = createHash('sha256').update(JSON.stringify([seed, file, place, mutatorName, replacement]));
  return hash.digest().readUInt32BE() < share * 2 ** 32;
}
