import type { MultiBar, SingleBar } from 'cli-progress';
import type { Streams } from '../jobs/streams.js';
import type { ReportChoice } from '../options/output-options.js';
import type { Outcome } from '../outcome.js';
import { BAR_FORM } from './bar-form.js';

/** ms between two lines where standard error is no terminal. */
const LINE_EVERY = 30_000;

/** How far a run over several files is, on standard error. */
export interface Progress {
  step(status: Outcome['status']): void;
  /** A line for people. */
  say(line: string): void;
  end(): void;
  /** Says at once what is done, because the run ends here. */
  interrupted(): void;
}

/** A bar on a terminal, else a line now and then; with `--quiet`, and for a single file, neither. */
export async function progressOf(
  total: number,
  choice: ReportChoice,
  { stderr }: Streams,
): Promise<Progress> {
  const counts = new Counts(total, Date.now());
  const shows = total > 1 && !choice.quiet;
  const bar = shows && stderr.isTTY === true ? await startBar(total, stderr) : undefined;
  let told = counts.started;
  const end = (): void => bar?.all.stop();
  return {
    say: (line) => {
      if (bar === undefined) stderr.write(`${line}\n`);
      else bar.all.log(`${line}\n`);
    },
    step: (status) => {
      counts.add(status);
      const now = Date.now();
      bar?.one.update(counts.ended, counts.pace(now));
      if (shows && bar === undefined && now - told >= LINE_EVERY && counts.ended < total) {
        told = now;
        const { rate, left } = counts.pace(now);
        stderr.write(`handline: ${counts.ended} of ${total} scores, ${rate} a second, ${left} left\n`);
      }
    },
    end,
    interrupted: () => {
      end();
      stderr.write(`handline: interrupted: ${counts.text()}\n`);
    },
  };
}

async function startBar(
  total: number,
  stream: NodeJS.WritableStream,
): Promise<{ all: MultiBar; one: SingleBar }> {
  const { default: bars } = await import('cli-progress');
  const all = new bars.MultiBar(
    { ...BAR_FORM, format: '{bar} {value} of {total} scores, {rate} a second, {left} left', stream },
    bars.Presets.shades_classic,
  );
  return { all, one: all.create(total, 0, { rate: '-', left: '?' }) };
}

/** What has ended so far, and how fast. */
export class Counts {
  readonly started: number;
  readonly #total: number;
  readonly #by = new Map<Outcome['status'], number>();
  ended = 0;

  /** @param started ms */
  constructor(total: number, started: number) {
    this.#total = total;
    this.started = started;
  }

  add(status: Outcome['status']): void {
    this.ended += 1;
    this.#by.set(status, (this.#by.get(status) ?? 0) + 1);
  }

  /** Scores a second, and the time that the rest takes at this rate. What earlier runs had done took no time. */
  pace(now: number): { readonly rate: string; readonly left: string } {
    const worked = this.ended - (this.#by.get('done') ?? 0);
    const seconds = Math.max(now - this.started, 1) / 1000;
    if (worked === 0) return { rate: '-', left: '?' };
    const rate = worked / seconds;
    return { rate: rate.toPrecision(2), left: duration((this.#total - this.ended) / rate) };
  }

  /** Such as `57 of 232 scores are done, 1 refused`. */
  text(): string {
    const count = (...statuses: Outcome['status'][]) =>
      statuses.reduce((sum, status) => sum + (this.#by.get(status) ?? 0), 0);
    const named = (number: number, name: string) => (number === 0 ? '' : `, ${number} ${name}`);
    const done = count('written', 'unchanged', 'differs', 'done');
    const troubles =
      named(count('refused', 'defect'), 'refused') + named(count('unwritten'), 'could not be written');
    return `${done} of ${this.#total} scores are done${troubles}; --skip-done with --out-dir goes on from there`;
  }
}

/** Seconds as `50 s`, `12 min` or `3.5 h`. */
function duration(seconds: number): string {
  if (seconds < 100) return `${Math.ceil(seconds)} s`;
  return seconds < 6000 ? `${Math.ceil(seconds / 60)} min` : `${(seconds / 3600).toFixed(1)} h`;
}
