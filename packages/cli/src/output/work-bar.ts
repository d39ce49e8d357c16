import type { Streams } from '../jobs/streams.js';
import { BAR_FORM } from './bar-form.js';

/** How far one long piece of work is. */
export interface WorkBar {
  readonly start: () => void;
  /** @param done 0 ... 1 of the stage */
  readonly show: (stage: string, done: number) => void;
  readonly end: () => void;
}

/** A bar on standard error, on a terminal only. */
export async function workBar({ stderr }: Streams): Promise<WorkBar | undefined> {
  if (stderr.isTTY !== true) return undefined;
  const { default: bars } = await import('cli-progress');
  const bar = new bars.SingleBar(
    { ...BAR_FORM, format: '{bar} {stage}', stream: stderr },
    bars.Presets.shades_classic,
  );
  return {
    start: () => bar.start(1, 0, { stage: '' }),
    show: (stage, done) => {
      bar.update(done, { stage });
      // The work leaves no time to the bar's own timer.
      bar.render();
    },
    end: () => bar.stop(),
  };
}
