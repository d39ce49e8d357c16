import type { TestModule } from 'vitest/node';
import type { Reporter } from 'vitest/reporters';

/** Prints the plain closing line that CI reads: the numbers are the runner's own. */
export default class SummaryReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const count = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state !== 'pending') count[state] += 1;
      }
      count.failed += module.errors().length;
    }
    console.log(`${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped`);
  }
}
