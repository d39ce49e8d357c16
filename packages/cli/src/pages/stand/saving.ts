import type { Language } from '@handline/core';
import { fill } from '../handout/words/words.js';
import type { Current } from './current.js';
import { optionsOf, type Session, type Settings } from './session.js';
import { type Digits, NO_DIGITS } from './state.js';
import { byId, enable, saveFile } from './view/dom.js';
import { STAND_WORDS } from './words/words.js';

/** Files that the page writes, and what would be lost without them. */
export class Saving {
  readonly #session: Session;
  readonly #version: string;
  readonly #say: (text: string) => void;
  #saved = NO_DIGITS.present;
  #digits = NO_DIGITS.present;
  #current: Current | undefined;
  #isLatest = true;
  readonly #waiting: (() => void)[] = [];

  constructor(session: Session, version: string, say: (text: string) => void) {
    this.#session = session;
    this.#version = version;
    this.#say = say;
    addEventListener('beforeunload', (event) => {
      if (this.#isUnsaved) event.preventDefault();
    });
  }

  speak(language: Language): void {
    const verovio = document.documentElement.dataset.verovio ?? '';
    byId('engraved').textContent = fill(STAND_WORDS[language].engraved, { version: this.#version, verovio });
  }

  /** What there is to save, and what is asked for: what follows from it may still be under way. */
  offer(current: Current | undefined, digits: Digits, settings: Settings): void {
    this.#current = current;
    this.#digits = digits;
    this.#isLatest = current?.history.present === digits && current.settings === settings;
    enable('save', current !== undefined);
    if (this.#isLatest) for (const go of this.#waiting.splice(0)) go();
  }

  /** Whether another score may take the place of this one, as the user says where digits would be lost. */
  mayLeave(name: string, language: Language): boolean {
    return !this.#isUnsaved || confirm(fill(STAND_WORDS[language].discard, { name }));
  }

  get #isUnsaved(): boolean {
    return this.#digits !== this.#saved && this.#digits.size > 0;
  }

  /** The score as it follows from the digits and choices of now. */
  async #latest(): Promise<Current | undefined> {
    if (this.#current && !this.#isLatest) await new Promise<void>((done) => this.#waiting.push(done));
    return this.#current;
  }

  async score(): Promise<void> {
    const current = await this.#latest();
    if (!current) return;
    const { score, marked, history, settings } = current;
    const [, stem = 'score', ending = '.musicxml'] = /^(.*?)(\.[^.]*)?$/.exec(score.name) ?? [];
    const name = `${stem}-marked${ending}`;
    const isArchive = ending.toLowerCase() === '.mxl';
    saveFile(name, marked.output, `application/vnd.recordare.musicxml${isArchive ? '' : '+xml'}`);
    this.#saved = history.present;
    this.#say(fill(STAND_WORDS[settings.language].saved, { name }));
  }

  /** As `handline handout` makes it of the score with the user's digits. */
  async handout(): Promise<void> {
    const current = await this.#latest();
    if (!current) return;
    const { score, marked, settings } = current;
    const typed = (id: string) => byId<HTMLInputElement>(id).value.trim();
    const [student, notes] = [typed('student'), typed('words')];
    const html = await this.#session.draw('handout', {
      bytes: marked.given,
      marking: optionsOf(score.name, settings),
      options: {
        compare: false,
        version: this.#version,
        ...(student !== '' && { student }),
        ...(notes !== '' && { notes }),
      },
    });
    const name = `${score.name.replace(/\.[^.]*$/, '')}-handout.html`;
    saveFile(name, html as Uint8Array<ArrayBuffer>, 'text/html');
    this.#say(fill(STAND_WORDS[settings.language].saved, { name }));
  }
}
