import { cautionText, type Language, type Report } from '@handline/core';
import { fill } from '../../handout/words/words.js';
import type { Notes, Struck } from '../notes.js';
import type { Session } from '../session.js';
import { STAND_WORDS } from '../words/words.js';
import type { StateCompared } from '../workers/compared.js';
import { byId, element } from './dom.js';
import type { Before } from './music.js';
import { showCompared, showNote, showWhy } from './note-texts.js';
import { showSigns } from './signs.js';

/** ms that a note stays chosen before its other fingers are worked out. */
const PAUSE = 350;

/** The page around the panel. */
export interface Around {
  readonly language: () => Language;
  /** Whether something is under way for which the music waits. */
  readonly isBusy: () => boolean;
  readonly showBefore: (before: Before, notes: Notes) => void;
}

/** What is said of the chosen note and of the score. */
export class NotePanel {
  readonly #session: Session;
  readonly #around: Around;
  #struck: Struck | undefined;
  #notes: Notes | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = false;

  constructor(session: Session, around: Around) {
    this.#session = session;
    this.#around = around;
    byId('compare').addEventListener('toggle', () => this.#compare());
  }

  /** In the language of now. */
  speak(): void {
    const language = this.#around.language();
    const { whose } = STAND_WORDS[language];
    byId('caution').textContent = cautionText(language);
    byId('whose').replaceChildren(
      ...([whose.yours, whose.given, whose.ours] as const).map((text) => element('li', text)),
    );
    this.show(this.#struck);
  }

  show(struck: Struck | undefined): void {
    this.#struck = struck;
    showNote(struck, this.#around.language());
    clearTimeout(this.#timer);
    if (struck) this.#timer = setTimeout(() => this.#explain(), PAUSE);
  }

  /** The keyboard at the chosen note. */
  keyboard(svg: string | undefined): void {
    if (svg !== undefined) byId('keyboard').innerHTML = svg;
  }

  /** What the user should know of the score. */
  report({ warnings }: Report): void {
    byId('warned').hidden = warnings.length === 0;
    byId('warnings').replaceChildren(
      ...warnings.map(({ message, place: { measure } }) =>
        element('li', measure === undefined ? message : fill('{measure}: {message}', { measure, message })),
      ),
    );
  }

  /** What the signs in the music mean, as soon as it is engraved. */
  signs(report: Report): void {
    showSigns(this.#around.language(), report);
  }

  /** The state of now against the one before it, where that is asked for. */
  compare(notes: Notes): void {
    this.#notes = notes;
    this.#compare();
  }

  async #compare(): Promise<void> {
    const notes = this.#notes;
    if (!notes) return;
    const isOpen = byId<HTMLDetailsElement>('compare').open;
    const compared = isOpen ? await this.#session.draw('compare', undefined) : undefined;
    if (notes !== this.#notes) return;
    if (isOpen) showCompared(compared, notes, this.#around.language());
    this.#around.showBefore(fingersBefore(compared, notes), notes);
  }

  /** The keyboard, and the other fingers: one question at a time, the last note's, and none that the music would wait for. */
  async #explain(): Promise<void> {
    const struck = this.#struck;
    if (!struck || this.#asked) return;
    if (this.#around.isBusy()) {
      this.#timer = setTimeout(() => this.#explain(), PAUSE);
      return;
    }
    this.#asked = true;
    try {
      const { place } = struck;
      const keyboard = await this.#session.draw('keyboard', place);
      if (struck === this.#struck) this.keyboard(keyboard);
      const why = await this.#session.draw('why', place);
      if (struck === this.#struck) showWhy(why, this.#around.language());
    } finally {
      this.#asked = false;
      if (struck !== this.#struck) this.#explain();
    }
  }
}

function fingersBefore(compared: StateCompared | undefined, notes: Notes): Before {
  const before = new Map<string, number>();
  for (const { from, ...place } of compared?.changes ?? []) {
    if (from !== null) for (const id of notes.at(place)?.ids ?? []) before.set(id, from);
  }
  return before;
}
