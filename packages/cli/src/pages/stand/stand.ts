import type { Finger } from '@handline/core';
import { fill } from '../handout/words/words.js';
import { differ, picturesOf } from './changes.js';
import type { Current } from './current.js';
import { actOf } from './keys.js';
import { Notes, type Place, type Struck } from './notes.js';
import { Saving } from './saving.js';
import type { Marked, Score, Session, Settings } from './session.js';
import { type Digits, giveBack, type History, NO_DIGITS, redo, setFinger, undo } from './state.js';
import { button, byId, enable, showName, speak } from './view/dom.js';
import { Music } from './view/music.js';
import { NotePanel } from './view/note-panel.js';
import { showSettings } from './view/settings-form.js';
import { Status } from './view/status.js';
import { STAND_WORDS } from './words/words.js';

/** ms that a computation may take before a newer one ends it: to begin anew in a fresh worker takes longer than that. */
const PATIENCE = 700;
/** ms within which a score is marked whose changes are practised. */
const QUICK = 3000;

/** The page: what is chosen, and what follows from it. */
export class Stand {
  readonly #session: Session;
  readonly #status = new Status(() => this.#abort.abort(new DOMException('stopped', 'AbortError')));
  readonly #music = new Music((id) => this.#choose(this.#current?.notes.placeOf(id)));
  readonly #panel: NotePanel;
  readonly #saving: Saving;
  #settings: Settings;
  #history = NO_DIGITS;
  #current: Current | undefined;
  #place: Place | undefined;
  /** What other choices begin anew: to open a score, or to follow in the one that is open. */
  #again = () => this.#follow();
  /** Counts what was asked for, so that what is out of date is dropped. */
  #turn = 0;
  #abort = new AbortController();
  #marking: { readonly since: number; readonly done: Promise<unknown> } | undefined;

  constructor(session: Session, settings: Settings, version: string) {
    this.#session = session;
    this.#settings = settings;
    this.#panel = new NotePanel(session, {
      language: () => this.#settings.language,
      isBusy: () => this.#status.isBusy,
      showBefore: (before, notes) => this.#music.showBefore(before, notes),
    });
    this.#saving = new Saving(session, version, (text) => this.#status.say(text));
    button('undo', () => this.#change(undo(this.#history)));
    button('redo', () => this.#change(redo(this.#history)));
    button('save', () => this.#saving.score());
    button('sheet', () => this.#guarded(() => this.#saving.handout()));
    button('back', () => this.#giveBack());
    button('previous', () => this.#move('along', -1));
    button('next', () => this.#move('along', 1));
    button('higher', () => this.#move('across', 1));
    button('lower', () => this.#move('across', -1));
    for (const own of document.querySelectorAll<HTMLElement>('[data-finger]'))
      own.addEventListener('click', () => this.#setFinger(Number(own.dataset.finger) as Finger));
    for (const id of ['music', 'note']) byId(id).addEventListener('keydown', (event) => this.#press(event));
    this.#speak();
  }

  /** Opens a score in place of the one that is there, which stays where this one is refused or digits would be lost. */
  async open(name: string, read: () => Promise<Uint8Array<ArrayBuffer>>, isAgain = false): Promise<void> {
    if (!isAgain && !this.#saving.mayLeave(name, this.#settings.language)) return;
    const turn = this.#begin();
    this.#again = () => this.open(name, read, true);
    this.#status.work(fill(this.#words.opening, { name }));
    await this.#guarded(async () => {
      const score = { name, bytes: await read() };
      const marked = await this.#mark(turn, score, NO_DIGITS.present, new Map());
      if (!marked) return;
      const isQuick = performance.now() - this.#marking!.since < QUICK;
      const told = await this.#session.draw('show', { ...this.#shown(score, marked), isNew: true });
      if (turn !== this.#turn) return;
      const notes = new Notes(told.lines, marked.report, NO_DIGITS.present);
      this.#history = NO_DIGITS;
      const offsets = notes.offsets();
      this.#current = { score, offsets, told, marked, notes, history: NO_DIGITS, settings: this.#settings };
      this.#again = () => this.#follow();
      this.#music.clear();
      byId('welcome').hidden = true;
      for (const id of ['music', 'note', 'handout']) byId(id).hidden = false;
      showName(told.title, name);
      this.#status.alert('');
      this.#status.say(fill(this.#words.opened, { name }));
      this.#show();
      this.#choose(notes.first, false);
      // So that the first change follows as quickly as later ones; a long score has taught the workers enough.
      const [offset] = offsets.values();
      const isOver = () => turn !== this.#turn;
      if (isQuick && offset !== undefined)
        this.#session.rehearse(score, offset, this.#settings, isOver).catch(() => undefined);
      await this.#engrave(turn);
      if (isQuick && !isOver()) await this.#session.draw('rehearse', this.#shown(score, marked));
    }, 'notOpened');
  }

  get #words() {
    return STAND_WORDS[this.#settings.language];
  }

  #speak(): void {
    speak(this.#settings.language);
    showSettings(this.#settings, (settings) => {
      this.#settings = settings;
      this.#speak();
      this.#music.markStale(() => true);
      this.#again();
    });
    this.#panel.speak();
    this.#saving.speak(this.#settings.language);
  }

  #press(event: KeyboardEvent): void {
    const act = actOf(event);
    if (!act || !this.#current || (event.target as Element).matches('input, select, textarea')) return;
    event.preventDefault();
    if (act.kind === 'along' || act.kind === 'across') this.#move(act.kind, act.by);
    else if (act.kind === 'finger') this.#setFinger(act.finger);
    else if (act.kind === 'back') this.#giveBack();
    else this.#change((act.kind === 'undo' ? undo : redo)(this.#history));
  }

  #choose(place: Place | undefined, scroll = true): void {
    if (!place) return;
    this.#place = place;
    this.#music.ring(this.#chosen?.ids ?? [], scroll);
    this.#panel.show(this.#chosen);
  }

  get #chosen(): Struck | undefined {
    return this.#place && this.#current?.notes.at(this.#place);
  }

  #move(way: 'along' | 'across', by: 1 | -1): void {
    const notes = this.#current?.notes;
    if (notes && this.#place) this.#choose(notes[way](this.#place, by));
  }

  #setFinger(finger: Finger): void {
    if (this.#chosen) this.#change(setFinger(this.#history, this.#chosen.heads, finger));
  }

  #giveBack(): void {
    if (this.#chosen) this.#change(giveBack(this.#history, this.#chosen.ids));
  }

  #change(history: History): void {
    if (history === this.#history) return;
    this.#history = history;
    this.#follow();
  }

  #begin(): number {
    this.#turn += 1;
    if (this.#marking && performance.now() - this.#marking.since > PATIENCE) this.#abort.abort();
    return this.#turn;
  }

  /** Fingers the rest around the digits as they are now, and draws what has changed. */
  async #follow(): Promise<void> {
    const { score, offsets, marked: old } = this.#current ?? {};
    if (!score || !offsets || !old) return;
    const turn = this.#begin();
    this.#again = () => this.#follow();
    this.#showButtons();
    this.#status.work(this.#words.fingering, 0);
    const [history, settings] = [this.#history, this.#settings];
    await this.#guarded(async () => {
      const marked = await this.#mark(turn, score, history.present, offsets);
      if (!marked) return;
      const place = this.#place;
      // Asked first: it is worked out while the page shows the digits.
      const drawing = this.#session.draw('show', { ...this.#shown(score, marked), isNew: false, place });
      const notes = new Notes(this.#current!.told.lines, marked.report, history.present);
      this.#current = { ...this.#current!, marked, notes, history, settings };
      this.#music.markStale(differ(picturesOf(old.report), picturesOf(marked.report)));
      this.#music.showBefore(new Map(), notes);
      this.#music.showDigits(notes);
      this.#status.alert('');
      this.#show();
      const { keyboard, ...told } = await drawing;
      if (turn !== this.#turn) return;
      this.#current = { ...this.#current!, told };
      if (place === this.#place) this.#panel.keyboard(keyboard);
      await this.#engrave(turn);
      // Last, because the music is waited for.
      if (turn === this.#turn) this.#panel.compare(notes);
    }, 'failed');
  }

  /** Undefined where something newer was asked for meanwhile. */
  async #mark(turn: number, score: Score, digits: Digits, offsets: ReadonlyMap<string, number>) {
    await this.#marking?.done;
    if (turn !== this.#turn) return undefined;
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    const onProgress = ({ share }: { readonly share: number }) =>
      this.#status.work(this.#words.fingering, share);
    const work = this.#session.mark(score, { digits, offsets }, this.#settings, { signal, onProgress });
    this.#marking = { since: performance.now(), done: work.catch(() => undefined) };
    const marked = await work;
    return turn === this.#turn ? marked : undefined;
  }

  #shown({ name }: Score, { output }: Marked) {
    return { bytes: output, options: { file: name, ...this.#settings } };
  }

  async #engrave(turn: number): Promise<void> {
    const { told, notes, marked } = this.#current!;
    for (;;) {
      const ask = this.#music.next(told.measures);
      if (!ask) break;
      this.#status.work(this.#words.engraving, ask.first / told.measures);
      const drawn = await this.#session.draw('draw', ask);
      if (turn !== this.#turn) return;
      this.#music.put(drawn, notes);
      this.#music.ring(this.#chosen?.ids ?? [], false);
    }
    this.#panel.signs(marked.report);
    this.#status.ready(this.#words.ready);
  }

  /** What the report says, and what can be done now. */
  #show(): void {
    const { marked } = this.#current!;
    this.#panel.report(marked.report);
    this.#panel.show(this.#chosen);
    this.#showButtons();
  }

  #showButtons(): void {
    enable('undo', this.#history.past.length > 0);
    enable('redo', this.#history.future.length > 0);
    this.#saving.offer(this.#current, this.#history.present, this.#settings);
  }

  /** What fails is told, and everything is as it was before. */
  async #guarded(work: () => Promise<void>, told: 'notOpened' | 'failed' = 'failed'): Promise<void> {
    const turn = this.#turn;
    try {
      await work();
    } catch (error) {
      const stopped = error instanceof DOMException && error.name === 'AbortError';
      if (turn !== this.#turn) return;
      this.#again = () => this.#follow();
      this.#status.ready(stopped ? this.#words.stopped : '');
      if (!stopped) this.#status.alert(fill(this.#words[told], { message: (error as Error).message }));
      if (!this.#current) return;
      ({ history: this.#history, settings: this.#settings } = this.#current);
      this.#speak();
      this.#showButtons();
      this.#turn += 1;
      await this.#engrave(this.#turn);
    }
  }
}
