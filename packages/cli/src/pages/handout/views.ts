import { beatText, keyboardView } from '@handline/core';
import { usageError } from '../../exit.js';
import { escapeHtml } from '../escape.js';
import { isWithin, type Passage, type PassageLine } from './passage.js';
import type { Drawing } from './systems.js';
import { fill, handText } from './words/words.js';

/** How many of the most demanding places are shown where none are chosen: a row on the page. */
const MOST_DEMANDING = 3;

/** mm on paper for a mm of the keyboard: three views stand side by side. */
const SCALE = 0.165;

/** A measure, and a beat in it from 1 in quarter notes, as asked for. */
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
  const views = chosen ? chosen.flatMap((place) => chosenViews(passage, place)) : demanding(passage);
  return views.map(({ own, at }) => {
    const { measure, beat, reason, cue } = own.slices[at]!;
    const place = fill(drawing.words.place, {
      measure,
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

/** Slices of the most movement, one a measure and hand. */
function demanding(passage: Passage): View[] {
  const best = new Map<string, View>();
  for (const view of allViews(passage)) {
    const key = `${view.own.partId} ${view.own.line.hand} ${view.own.line.slices[view.at]!.measure}`;
    const known = best.get(key);
    if (!known || movementOf(view) > movementOf(known)) best.set(key, view);
  }
  return [...best.values()]
    .filter((view) => movementOf(view) > 0)
    .sort((a, b) => movementOf(b) - movementOf(a))
    .slice(0, MOST_DEMANDING)
    .sort((a, b) => a.own.line.slices[a.at]!.measure - b.own.line.slices[b.at]!.measure);
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
  return [there.reduce((most, view) => (movementOf(view) > movementOf(most) ? view : most))];
}

function allViews({ lines, range }: Passage): View[] {
  return lines.flatMap((own) =>
    own.line.slices
      .filter(({ measure }) => isWithin(measure, range))
      .map(({ index }) => ({ own, at: index })),
  );
}

function movementOf({ own, at }: View): number {
  return own.slices[at]!.movement;
}
