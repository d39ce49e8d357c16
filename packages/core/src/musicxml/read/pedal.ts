import type { PedalSpan } from '../../score/model.js';
import type { Event, PartDraft } from './drafts.js';
import type { Quarters } from './quarters.js';

interface PedalMark {
  readonly at: number;
  readonly pedal: NonNullable<Event['pedal']>;
}

/** Stretches with the damper pedal down; a pedal that is never lifted stays down to the end. */
export function pedalSpans(draft: PartDraft, starts: readonly number[], time: Quarters): PedalSpan[] {
  const marks: PedalMark[] = [];
  for (const { measure, tick, pedal } of draft.events) {
    if (pedal !== undefined) marks.push({ at: (starts[measure] ?? 0) + tick, pedal });
  }
  marks.sort(earlierFirst);
  marks.push({ at: starts.at(-1) ?? 0, pedal: 'up' });
  const spans: PedalSpan[] = [];
  let down: number | undefined;
  for (const { at, pedal } of marks) {
    if (pedal === 'down') {
      down ??= at;
      continue;
    }
    if (down !== undefined && at > down) spans.push({ from: time.of(down), to: time.of(at) });
    down = pedal === 'change' ? at : undefined;
  }
  return spans;
}

function earlierFirst(a: PedalMark, b: PedalMark): number {
  return a.at - b.at;
}
