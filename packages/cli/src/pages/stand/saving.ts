import type { Language } from '@handline/core';
import { fill } from '../handout/words/words.js';
import { type Marked, optionsOf, type Score, type Session, type Settings } from './session.js';
import type { Digits, History } from './state.js';
import { byId, saveFile } from './view/dom.js';
import { STAND_WORDS } from './words/words.js';

interface Savable {
  readonly score: Score;
  readonly marked: Marked;
  readonly history: History;
  readonly settings: Settings;
}

/** Files that the page writes. */
export class Saving {
  readonly #session: Session;
  readonly #version: string;
  readonly #say: (text: string) => void;
  #saved: Digits = new Map();

  constructor(session: Session, version: string, say: (text: string) => void) {
    this.#session = session;
    this.#version = version;
    this.#say = say;
  }

  speak(language: Language): void {
    const verovio = document.documentElement.dataset.verovio ?? '';
    byId('engraved').textContent = fill(STAND_WORDS[language].engraved, { version: this.#version, verovio });
  }

  /** These digits need not be saved. */
  saved(digits: Digits): void {
    this.#saved = digits;
  }

  isUnsaved(digits: Digits): boolean {
    return digits !== this.#saved && digits.size > 0;
  }

  score(current: Savable | undefined): void {
    if (!current) return;
    const { score, marked, history, settings } = current;
    const [, stem = 'score', ending = '.musicxml'] = /^(.*?)(\.[^.]*)?$/.exec(score.name) ?? [];
    const name = `${stem}-marked${ending}`;
    const isArchive = ending.toLowerCase() === '.mxl';
    saveFile(name, marked.output, `application/vnd.recordare.musicxml${isArchive ? '' : '+xml'}`);
    this.saved(history.present);
    this.#say(fill(STAND_WORDS[settings.language].saved, { name }));
  }

  /** As `handline handout` makes it of the score with the user's digits. */
  async handout(current: Savable | undefined): Promise<void> {
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
