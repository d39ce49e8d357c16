import type { Language, Report } from '@handline/core';
import { fill } from '../../handout/words/words.js';
import type { Notes, Struck } from '../notes.js';
import type { Session } from '../session.js';
import { STAND_WORDS } from '../words/words.js';
import { byId, element } from './dom.js';
import { showCompared, showNote, showWhy } from './note-texts.js';

/** ms that a note stays chosen before its other fingers are worked out. */
const PAUSE = 350;

/** What is said of the chosen note and of the score. */
export class NotePanel {
  readonly #session: Session;
  readonly #language: () => Language;
  #struck: Struck | undefined;
  #notes: Notes | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = false;

  constructor(session: Session, language: () => Language) {
    this.#session = session;
    this.#language = language;
    byId('compare').addEventListener('toggle', () => this.#compare());
  }

  /** In the language of now. */
  speak(): void {
    const { whose } = STAND_WORDS[this.#language()];
    byId('whose').replaceChildren(
      ...([whose.yours, whose.given, whose.ours] as const).map((text) => element('li', text)),
    );
    this.show(this.#struck);
  }

  show(struck: Struck | undefined): void {
    this.#struck = struck;
    showNote(struck, this.#language());
    clearTimeout(this.#timer);
    if (struck) this.#timer = setTimeout(() => this.#explain(), PAUSE);
  }

  /** The caution, and what the user should know of the score. */
  report({ caution, warnings }: Report): void {
    byId('caution').textContent = caution;
    byId('warned').hidden = warnings.length === 0;
    byId('warnings').replaceChildren(
      ...warnings.map(({ message, place: { measure } }) =>
        element('li', measure === undefined ? message : fill('{measure}: {message}', { measure, message })),
      ),
    );
  }

  /** The state of now against the one before it, where that is asked for. */
  compare(notes: Notes): void {
    this.#notes = notes;
    this.#compare();
  }

  async #compare(): Promise<void> {
    if (!byId<HTMLDetailsElement>('compare').open || !this.#notes) return;
    showCompared(await this.#session.draw('compare', undefined), this.#notes, this.#language());
  }

  /** The keyboard, and the other fingers: one question at a time, the last note's. */
  async #explain(): Promise<void> {
    const struck = this.#struck;
    if (!struck || this.#asked) return;
    this.#asked = true;
    try {
      const { place } = struck;
      const keyboard = await this.#session.draw('keyboard', place);
      if (struck === this.#struck) byId('keyboard').innerHTML = keyboard;
      const why = await this.#session.draw('why', place);
      if (struck === this.#struck) showWhy(why, this.#language());
    } finally {
      this.#asked = false;
      if (struck !== this.#struck) this.#explain();
    }
  }
}
