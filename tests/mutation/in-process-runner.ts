import { INSTRUMENTER_CONSTANTS, type MutantCoverage } from '@stryker-mutator/api/core';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import {
  type DryRunResult,
  DryRunStatus,
  determineHitLimitReached,
  type MutantRunOptions,
  type MutantRunResult,
  type TestResult,
  type TestRunner,
  TestStatus,
  toMutantRunResult,
} from '@stryker-mutator/api/test-runner';
import {
  ASYMMETRIC_MATCHERS_OBJECT,
  chai,
  GLOBAL_EXPECT,
  getState,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect';
import {
  afterAll,
  beforeAll,
  describe,
  it,
  startTests,
  type Task,
  type Test,
  type VitestRunner,
} from '@vitest/runner';
import { bundle, DRAWS, type Load, VITEST } from './bundle.js';

interface Instrumented {
  activeMutant: string | undefined;
  currentTestId: string | undefined;
  hitCount: number | undefined;
  hitLimit: number | undefined;
  mutantCoverage: MutantCoverage | undefined;
}
const globals = globalThis as unknown as Record<string | symbol, unknown>;
globals[INSTRUMENTER_CONSTANTS.NAMESPACE] ??= {};
const instrumented = globals[INSTRUMENTER_CONSTANTS.NAMESPACE] as Instrumented;

chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
const expect = Object.assign(
  (value: unknown, message?: string) => chai.expect(value, message),
  chai.expect,
  globals[ASYMMETRIC_MATCHERS_OBJECT as never],
);
globals[GLOBAL_EXPECT as never] = expect;
setState({ ...getState(expect as never), assertionCalls: 0 }, expect as never);
globals[VITEST] = { afterAll, beforeAll, describe, expect, it, test: it };

/** A test that takes more CPU time, in ms, judges no mutant: scores are a little too low rather than days late. */
const LONGEST = 1500;

/** A property draws at most so often for a mutant: most that die do so at once, and each survivor costs all draws. */
const MOST_DRAWS = 25;

const testsOf = (task: Task): Test[] => ('tasks' in task ? task.tasks.flatMap(testsOf) : [task as Test]);

/**
 * Runs vitest's tests in one process, with vitest's own runner and matchers: a mutant costs a tenth of what it costs with a
 * worker and a load of all modules for each.
 */
class InProcessRunner implements TestRunner {
  #fresh!: () => Load;
  #files: string[] = [];
  /** CPU time of a test, in ms. */
  readonly #spent = new Map<string, number>();
  /** Tests that count their cases, and so fail with few draws. */
  readonly #counting = new Set<string>();
  readonly #kills = new Map<string, number>();

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init(): Promise<void> {
    const root = process.cwd();
    this.#files = process.env.HANDLINE_JUDGES!.split(',').map((file) => `${root}/${file}`);
    console.log = () => {};
    this.#fresh = await bundle(root, this.#files);
  }

  async dryRun(): Promise<DryRunResult> {
    instrumented.activeMutant = undefined;
    instrumented.mutantCoverage = undefined;
    const tests = await this.#run(this.#files, () => true, false);
    for (const { id, status } of tests) if (status === TestStatus.Failed) this.#counting.add(id);
    const again = await this.#run(this.#files, (id) => this.#counting.has(id), false);
    const byId = new Map([...tests, ...again].map((test) => [test.id, test]));
    // What fails here alone judges nothing: the score is a little too low.
    for (const [id, test] of byId) {
      if (test.status !== TestStatus.Failed) continue;
      this.#spent.set(id, Number.POSITIVE_INFINITY);
      byId.set(id, { ...test, status: TestStatus.Success });
    }
    const { mutantCoverage } = instrumented as Instrumented;
    return {
      status: DryRunStatus.Complete,
      tests: [...byId.values()],
      ...(mutantCoverage && { mutantCoverage }),
    };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit }: MutantRunOptions): Promise<MutantRunResult> {
    const wanted = new Set(testFilter?.filter((id) => (this.#spent.get(id) ?? 0) <= LONGEST));
    const files = new Map<string, number>();
    for (const id of wanted) {
      const file = id.slice(0, id.indexOf('#'));
      files.set(file, (files.get(file) ?? 0) + (this.#spent.get(id) ?? 0));
    }
    // What ends soonest and has killed most comes first.
    const worth = (file: string) => (1 + (this.#kills.get(file) ?? 0)) / (50 + files.get(file)!);
    const order = [...files.keys()].sort((a, b) => worth(b) - worth(a));
    instrumented.hitCount = 0;
    instrumented.hitLimit = hitLimit;
    const tests = await this.#run(order, (id) => wanted.has(id), true, activeMutant.id);
    const killer = tests.find(({ status }) => status === TestStatus.Failed);
    if (killer !== undefined) this.#kills.set(killer.fileName!, (this.#kills.get(killer.fileName!) ?? 0) + 1);
    const timeout = determineHitLimitReached(instrumented.hitCount, instrumented.hitLimit);
    return toMutantRunResult(timeout ?? { status: DryRunStatus.Complete, tests });
  }

  async #run(
    files: readonly string[],
    wanted: (id: string) => boolean,
    bail: boolean,
    mutant?: string,
  ): Promise<TestResult[]> {
    const results: TestResult[] = [];
    instrumented.activeMutant = undefined;
    const load = this.#fresh();
    for (const file of files) {
      const ids = new Map<Task, string>();
      let failed = false;
      let start = process.cpuUsage();
      const runner: VitestRunner = {
        config: {
          root: '/',
          setupFiles: [],
          passWithNoTests: true,
          allowOnly: true,
          sequence: { seed: 1, hooks: 'stack', setupFiles: 'list' },
          maxConcurrency: 1,
          testTimeout: 300_000,
          hookTimeout: 300_000,
          retry: 0,
          includeTaskLocation: false,
          tags: [],
          tagsFilter: undefined,
          strictTags: false,
          // biome-ignore lint/suspicious/noExplicitAny: the rest is of no use here
        } as any,
        importFile: (path) => load(path),
        onCollected([collected]) {
          testsOf(collected!).forEach((test, index) => {
            const id = `${file}#${index} ${test.name}`;
            ids.set(test, id);
            if (!wanted(id)) test.mode = 'skip';
          });
          instrumented.activeMutant = mutant;
        },
        onBeforeRunTask: (test) => {
          if (failed) test.mode = 'skip';
          // A test that is passed over does not end either: what the next file runs while it loads is none of its doing.
          instrumented.currentTestId = test.mode === 'skip' ? undefined : ids.get(test);
          globals[DRAWS] = this.#counting.has(ids.get(test)!) ? Number.POSITIVE_INFINITY : MOST_DRAWS;
          start = process.cpuUsage();
        },
        onAfterRunTask: (test) => {
          instrumented.currentTestId = undefined;
          const { state, duration = 0, errors } = test.result ?? {};
          if (state !== 'pass' && state !== 'fail') return;
          const id = ids.get(test)!;
          const base = { id, name: id.slice(id.indexOf('#') + 1), fileName: file, timeSpentMs: duration };
          if (state === 'pass') results.push({ ...base, status: TestStatus.Success });
          else
            results.push({
              ...base,
              status: TestStatus.Failed,
              failureMessage: String(errors?.[0]?.message),
            });
          if (mutant === undefined) this.#spent.set(id, process.cpuUsage(start).user / 1000);
          failed ||= bail && state === 'fail';
        },
      };
      const [collected] = await startTests([{ filepath: file, testLocations: undefined } as never], runner);
      instrumented.activeMutant = undefined;
      // What fails outside any test, in `beforeAll` or while loading.
      const error =
        collected!.result?.errors?.[0] ??
        collected!.tasks.find(({ type, result }) => type === 'suite' && result?.errors)?.result?.errors?.[0];
      if (error !== undefined && !results.some(({ status }) => status === TestStatus.Failed)) {
        results.push({
          id: file,
          name: file,
          fileName: file,
          timeSpentMs: 0,
          status: TestStatus.Failed,
          failureMessage: String(error.message),
        });
        failed = bail;
      }
      if (failed) break;
    }
    return results;
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, 'in-process', InProcessRunner)];
