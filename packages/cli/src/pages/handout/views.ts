import { beatText, keyboardView } from '@handline/core';
import { usageError } from '../../exit.js';
import { escapeHtml } from '../escape.js';
import { isWithin, type Passage, type PassageLine } from './passage.js';
import type { Drawing } from './systems.js';
import { fill, handText, measureText } from './words/words.js';

/** How many places are shown where none are chosen: a row on the page. */
const MOST_SHOWN = 3;

/** mm from which a move is shown: as in the band under the notes. */
const LEAST_SHOWN = 5;

/** mm on paper for a mm of the keyboard: three views stand side by side. */
const SCALE = 0.165;

/** A measure, and a beat in it, counted as in reports, as asked for. */
export interface ViewPlace {
  readonly measure: string;
  readonly beat?: number;
}

interface View {
  readonly own: PassageLine;
  readonly at: number;
}

/** Keyboard views with what happens there in words. */
export function viewBlocks(passage: Passage, drawing: Drawing, chosen?: readonly ViewPlace[]): string[] {
  const views = chosen ? chosen.flatMap((place) => chosenViews(passage, place)) : mostToShow(passage);
  return views.map(({ own, at }) => {
    const { measure, beat, reason, cue } = own.slices[at]!;
    const place = fill(drawing.words.place, {
      where: measureText(drawing.words, measure),
      beat: beatText(beat, drawing.language),
      hand: handText(drawing.words, own.line.hand, own.partName),
    });
    const said = [cue, reason].filter((text) => text).map((text) => escapeHtml(text!));
    const picture = keyboardView(own.line, own.plan, at, {
      language: drawing.language,
      scale: SCALE,
      ...(own.partName !== undefined && { part: own.partName }),
    });
    return `<figure class="view">${picture}<figcaption><strong>${escapeHtml(place)}</strong>${said.map((text) => `<br>${text}`).join('')}</figcaption></figure>`;
  });
}

/** Where a picture has most to show, one a measure and hand, the same fingers on the same keys once. */
function mostToShow(passage: Passage): View[] {
  const best = new Map<string, View>();
  for (const view of allViews(passage)) {
    const key = `${view.own.partId} ${view.own.line.hand} ${measureOf(view)}`;
    const known = best.get(key);
    if (!known || shownMovement(view) > shownMovement(known)) best.set(key, view);
  }
  const ranked = [...best.values()]
    .filter((view) => shownMovement(view) >= LEAST_SHOWN)
    .sort((a, b) => shownMovement(b) - shownMovement(a));
  const once = new Map(ranked.toReversed().map((view) => [fingersOnKeys(view), view]));
  return ranked
    .filter((view) => once.get(fingersOnKeys(view)) === view)
    .slice(0, MOST_SHOWN)
    .sort(inOrder);
}

function measureOf({ own, at }: View): number {
  return own.line.slices[at]!.measure;
}

/** By measure and beat; both hands together as the passage has them. */
function inOrder(a: View, b: View): number {
  return measureOf(a) - measureOf(b) || a.own.slices[a.at]!.beat - b.own.slices[b.at]!.beat;
}

function fingersOnKeys({ own, at }: View): string {
  const { keys, fingers } = own.slices[at]!;
  return `${own.line.hand} ${keys} ${fingers}`;
}

/** @throws CliError where no note begins at the place */
function chosenViews(passage: Passage, { measure, beat }: ViewPlace): View[] {
  const there = allViews(passage).filter(({ own, at }) => {
    const slice = own.slices[at]!;
    return slice.measure === measure && (beat === undefined || Math.abs(slice.beat - beat) < 0.01);
  });
  if (there.length === 0) {
    const at = beat === undefined ? '' : ` at beat ${beat}`;
    throw usageError(`--views: no note begins in measure ${measure}${at} of what the handout shows`);
  }
  if (beat !== undefined) return there;
  return [there.reduce((most, view) => (shownMovement(view) > shownMovement(most) ? view : most))];
}

function allViews({ lines, range }: Passage): View[] {
  return lines.flatMap((own) =>
    own.line.slices
      .filter(({ measure }) => isWithin(measure, range))
      .map(({ index }) => ({ own, at: index })),
  );
}

/** mm of what a picture of one moment shows: the forearm's move in or out and a crossing. A leap along the keys is not in it. */
function shownMovement({ own, at }: View): number {
  const { depthChange, crossing } = own.plan.slices[at]!;
  return Math.abs(depthChange) + (crossing?.difficulty ?? 0);
}
