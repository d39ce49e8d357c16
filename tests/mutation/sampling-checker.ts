import { type Checker, type CheckResult, CheckStatus } from '@stryker-mutator/api/check';
import type { Mutant } from '@stryker-mutator/api/core';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { isSampled } from './sample.js';

/** Passes the mutants of the sample; the others are not run, and count for nothing. */
class SamplingChecker implements Checker {
  async init(): Promise<void> {}

  async group(mutants: Mutant[]): Promise<string[][]> {
    return [mutants.map(({ id }) => id)];
  }

  async check(mutants: Mutant[]): Promise<Record<string, CheckResult>> {
    const [share, seed] = process.env.HANDLINE_SAMPLE!.split(',').map(Number);
    const result = (mutant: Mutant): CheckResult =>
      isSampled(mutant, share!, seed!)
        ? { status: CheckStatus.Passed }
        : { status: CheckStatus.CompileError, reason: 'not in the sample' };
    return Object.fromEntries(mutants.map((mutant) => [mutant.id, result(mutant)]));
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Checker, 'sample', SamplingChecker)];
