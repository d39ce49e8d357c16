import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bench, describe } from 'vitest';
import { MAIN } from '../cli/harness.js';
import { MANY, manyScores } from '../cli/many.js';

const EARLY = 50;

/** Peak memory so far, MB, and CPU seconds of a process and its threads; Linux only. */
function spent(pid: number): { readonly peak: number; readonly cpu: number } {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
    .replace(/^.*\) /, '')
    .split(' ');
  const peak = Math.round(Number(/VmHWM:\s+(\d+)/.exec(status)?.[1]) / 1024);
  return { peak, cpu: (Number(fields[11]) + Number(fields[12])) / 100 };
}

/** The built command over an edition, in a process of its own. */
async function printRun(jobs: number): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'handline-bench-'));
  manyScores(join(folder, 'ed'));
  const out = join(folder, 'out');
  const start = performance.now();
  const child = spawn(process.execPath, [MAIN, 'mark', 'ed', '--out-dir', 'out', '--jobs', `${jobs}`, '-q'], {
    cwd: folder,
    stdio: 'inherit',
  });
  let [early, last] = [0, { peak: 0, cpu: 0 }];
  const look = setInterval(() => {
    if (!existsSync(`/proc/${child.pid}/status`)) return;
    const now = spent(child.pid!);
    if (now.peak > 0) last = now;
    if (early === 0 && existsSync(out) && readdirSync(out).length > EARLY) early = now.peak;
  }, 20);
  await new Promise((ended) => child.on('exit', ended));
  clearInterval(look);
  const wall = (performance.now() - start) / 1000;
  rmSync(folder, { recursive: true });
  console.log(
    `${MANY} scores, --jobs ${jobs}: ${wall.toFixed(1)} s, CPU of all threads ${last.cpu.toFixed(1)} s; ` +
      `peak memory ${early} MB after ${EARLY} scores, ${last.peak} MB after all`,
  );
  return wall;
}

describe('an edition', () => {
  bench(
    `${MANY} scores with one job and with two`,
    async () => {
      const [one, two] = [await printRun(1), await printRun(2)];
      console.log(
        `--jobs 2 takes ${(two / one).toFixed(2)} of the time of --jobs 1 (aim 0.6, on two quiet cores)`,
      );
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
