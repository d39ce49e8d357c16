import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { cruise, type ICruiseResult, type IForbiddenRuleType } from 'dependency-cruiser';
import { describe, expect, it } from 'vitest';
import { FLOORS, MUSICXML_FLOORS } from './floors.js';

const CORE = 'packages/core/src';
const CLI = 'packages/cli/src';
const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Matches the files of some rooms, or the files of these names. */
function within(folder: string, rooms: readonly string[]): string {
  return `^${folder}/(?:${rooms.map((room) => (room.endsWith('.ts') ? `${room}$` : `${room}/`)).join('|')})`;
}

/** Forbids every arrow from a room to one of a higher floor, or to another one of its own floor. */
function upwards(folder: string, floors: readonly (readonly string[])[]): IForbiddenRuleType[] {
  return floors.flatMap((floor, at) =>
    floor.flatMap((room) => {
      const others = [...floor.filter((other) => other !== room), ...floors.slice(at + 1).flat()];
      return others.length === 0
        ? []
        : [
            {
              name: `${room} reaches no higher`,
              severity: 'error' as const,
              from: { path: within(folder, [room]) },
              to: { path: within(folder, others) },
            },
          ];
    }),
  );
}

const RULES: IForbiddenRuleType[] = [
  { name: 'no cycle', severity: 'error', from: {}, to: { circular: true } },
  { name: 'every import is found', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ...upwards(CORE, FLOORS),
  ...upwards(`${CORE}/musicxml`, MUSICXML_FLOORS),
  {
    name: 'core knows nothing of Node',
    severity: 'error',
    from: { path: `^${CORE}/` },
    to: { dependencyTypes: ['core'] },
  },
  {
    name: 'the command line takes of core only what it exports',
    severity: 'error',
    from: { path: `^${CLI}/` },
    to: { path: '^packages/core/', pathNot: '^packages/core/dist/index\\.js$' },
  },
];

/** Imports of types count too. */
async function cruised(folders: string[], rules: IForbiddenRuleType[]): Promise<ICruiseResult> {
  const { output } = await cruise(folders, {
    baseDir: ROOT,
    parser: 'swc',
    tsPreCompilationDeps: true,
    doNotFollow: 'node_modules|/dist/',
    ruleSet: { forbidden: rules },
    validate: true,
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'default'] },
  });
  if (typeof output === 'string') throw new Error(output);
  return output;
}

function broken({ summary }: ICruiseResult): string[] {
  return summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`);
}

function foldersOf(path: string): { path: string; files: number }[] {
  const entries = readdirSync(`${ROOT}/${path}`, { withFileTypes: true });
  const own = { path, files: entries.filter((entry) => entry.isFile()).length };
  return [
    own,
    ...entries.filter((entry) => entry.isDirectory()).flatMap(({ name }) => foldersOf(`${path}/${name}`)),
  ];
}

describe('rooms', () => {
  it('have no import cycle and no arrow that points upwards', async () => {
    const result = await cruised([CORE, CLI], RULES);
    const { totalCruised, totalDependenciesCruised } = result.summary;
    console.log(
      `${totalCruised} modules, ${totalDependenciesCruised} imports, ${RULES.length} rules: ${broken(result).length} broken`,
    );
    expect(broken(result)).toEqual([]);
    expect(totalDependenciesCruised).toBeGreaterThan(500);
  });

  it('all have a floor', () => {
    const rooms = readdirSync(`${ROOT}/${CORE}`);
    expect(rooms.toSorted()).toEqual(FLOORS.flat().toSorted());
  });

  it('are told where an arrow points upwards, also one of types alone', async () => {
    const turned = [...FLOORS].reverse();
    const result = await cruised([`${CORE}/options`], upwards(CORE, turned));
    expect(broken(result)).toContain(
      'options reaches no higher: packages/core/src/options/options.ts -> packages/core/src/score/errors.ts',
    );
  });

  it('hold about a dozen files each', () => {
    const folders = [CORE, CLI].flatMap(foldersOf).toSorted((a, b) => b.files - a.files);
    const largest = folders.slice(0, 3).map(({ path, files }) => `${path} ${files}`);
    console.log(`largest folders: ${largest.join(', ')}`);
    expect(folders[0]?.files).toBeLessThanOrEqual(13);
  });
});
