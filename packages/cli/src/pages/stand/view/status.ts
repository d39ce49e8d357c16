import { button, byId } from './dom.js';

/** ms of work before the bar shows, so that it does not flicker. */
const SHOWN_AFTER = 400;

/** What the page is at. */
export class Status {
  readonly #status = byId('status');
  readonly #progress = byId<HTMLProgressElement>('progress');
  #since = Number.POSITIVE_INFINITY;

  /** @param stop ends the work that is under way */
  constructor(stop: () => void) {
    button('stop', stop);
  }

  /** Until `ready`, the music may change. */
  get isBusy(): boolean {
    return byId('music').ariaBusy === 'true';
  }

  /** @param share of the work that is done, 0 ... 1 */
  work(text: string, share?: number): void {
    const now = performance.now();
    this.#since = Math.min(this.#since, now);
    byId('music').ariaBusy = 'true';
    if (share === undefined) this.#progress.removeAttribute('value');
    else this.#progress.value = share;
    if (now - this.#since < SHOWN_AFTER && share !== undefined) return;
    if (this.#status.textContent !== text) this.#status.textContent = text;
    this.#progress.hidden = false;
    byId('stop').hidden = false;
  }

  ready(text: string): void {
    byId('music').ariaBusy = 'false';
    this.#since = Number.POSITIVE_INFINITY;
    this.#progress.hidden = true;
    byId('stop').hidden = true;
    this.#status.textContent = text;
  }

  say(text: string): void {
    this.#status.textContent = text;
  }

  alert(text: string): void {
    byId('alert').textContent = text;
  }
}
