import { beatText, type Kind, type Language, movementNames } from '@handline/core';
import { unbroken } from '../../escape.js';
import { fill, HANDOUT_WORDS, handText, measureText } from '../../handout/words/words.js';
import type { Notes, Struck } from '../notes.js';
import { keyName, STAND_WORDS } from '../words/words.js';
import type { StateCompared } from '../workers/compared.js';
import type { Why } from '../workers/why.js';
import { byId, element, enable } from './dom.js';

/** Changed notes that are told one by one. */
const MOST_CHANGES = 12;
/** mm below which a difference is none. */
const LEAST = 0.5;

/** Where a note is, and which key. */
export function placeText(struck: Struck, language: Language): string {
  const words = HANDOUT_WORDS[language];
  const { measure, beat } = struck.slice;
  const place = fill(words.place, {
    where: measureText(words, measure),
    beat: beatText(beat, language),
    hand: handText(words, struck.hand, struck.partName),
  });
  return `${place}, ${keyName(STAND_WORDS[language], struck.midi, struck.step)}`;
}

/** What is said of the chosen note. */
export function showNote(struck: Struck | undefined, language: Language): void {
  const words = STAND_WORDS[language];
  for (const own of document.querySelectorAll<HTMLElement>('[data-finger]')) {
    own.setAttribute('aria-pressed', `${own.dataset.finger === `${struck?.finger}`}`);
  }
  enable('back', struck?.whose === 'yours');
  if (!struck) {
    byId('chosen').textContent = words.choose;
    byId('why').replaceChildren();
    byId('keyboard').replaceChildren();
    return;
  }
  const { finger, whose, slice } = struck;
  const digit = finger === null ? words.noFinger : fill(words.finger, { finger });
  byId('chosen').textContent = unbroken(
    `${placeText(struck, language)}${HANDOUT_WORDS[language].colon} ${digit}, ${words.whose[whose]}`,
  );
  byId('why').replaceChildren(
    ...[
      slice.reason,
      slice.cue === undefined ? '' : fill(words.cue, { cue: slice.cue }),
      fill(words.movement, { mm: Math.round(slice.movement) }),
      fill(words.depth, { depth: Math.round(slice.depth) }),
    ]
      .filter((text) => text !== '')
      .map((text) => element('p', text)),
  );
}

/** The chosen finger against the next best one, under what is said of the note. */
export function showWhy({ other, cost, kinds }: Why, language: Language): void {
  const words = STAND_WORDS[language];
  if (other === undefined || cost === undefined || !kinds) {
    byId('why').append(element('p', words.noOther));
    return;
  }
  const total = Object.values(kinds).reduce((sum, mm) => sum + mm, 0);
  const said = (more: string, less: string, mm: number) =>
    element('p', fill(mm < 0 ? less : more, { finger: other, mm: Math.abs(Math.round(mm)) }));
  const list = element('ul');
  const names = movementNames(language);
  for (const [kind, mm] of Object.entries(kinds)) {
    if (Math.abs(mm) < LEAST) continue;
    list.append(element('li', `${names[kind as Kind]}: ${signed(mm)} mm`));
  }
  byId('why').append(
    said(words.otherMore, words.otherLess, cost),
    said(words.movementMore, words.movementLess, total),
    list,
  );
}

/** The state against the one before it. */
export function showCompared(compared: StateCompared | undefined, notes: Notes, language: Language): void {
  const words = STAND_WORDS[language];
  const box = byId('compared');
  if (!compared || compared.changes.length === 0) {
    box.replaceChildren(element('p', words.nothingChanged));
    return;
  }
  const { before, now, changes } = compared;
  const names = movementNames(language);
  const total = (kinds: typeof before) => Math.round(Object.values(kinds).reduce((sum, mm) => sum + mm, 0));
  const rows = (Object.keys(now) as Kind[])
    .filter((kind) => Math.abs(now[kind] - before[kind]) >= LEAST)
    .map((kind) => element('li', `${names[kind]}: ${signed(now[kind] - before[kind])} mm`));
  const list = changes.slice(0, MOST_CHANGES).map(({ from, to, ...place }) => {
    const struck = notes.at(place)!;
    return element(
      'li',
      fill(words.change, { place: placeText(struck, language), from: from ?? '–', to: to ?? '–' }),
    );
  });
  if (changes.length > MOST_CHANGES) list.push(element('li', '…'));
  box.replaceChildren(
    element('p', fill(words.totals, { before: total(before), now: total(now) })),
    element('ul', '', rows),
    element('p', fill(words.changed, { count: changes.length })),
    element('ul', '', list),
    element('p', words.before),
  );
}

function signed(mm: number): string {
  const rounded = Math.round(mm);
  return rounded < 0 ? `−${-rounded}` : `+${rounded}`;
}
