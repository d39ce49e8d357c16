import type { Language } from '@handline/core';
import { unbroken } from '../../escape.js';
import { STAND_WORDS } from '../words/words.js';

/** The element of the page with this id. */
export function byId<E extends HTMLElement = HTMLElement>(id: string): E {
  return document.getElementById(id) as E;
}

export function button(id: string, act: () => void): void {
  byId(id).addEventListener('click', act);
}

/** A button that has nothing to do does nothing, but keeps the focus. */
export function enable(id: string, can: boolean): void {
  byId(id).ariaDisabled = `${!can}`;
}

export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  text = '',
  children: readonly Node[] = [],
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  made.textContent = unbroken(text);
  made.append(...children);
  return made;
}

/** The score's title and file, each in its own direction. */
export function showName(title: string | undefined, file: string): void {
  const own = element('bdi', file);
  byId('name').replaceChildren(...(title ? [element('bdi', title), ' (', own, ')'] : [own]));
}

/** Says everything that stands in the page itself in one language. */
export function speak(language: Language): void {
  const words = STAND_WORDS[language];
  document.documentElement.lang = language;
  document.title = words.title;
  const text = (name: string | undefined) => words[name as 'title'];
  for (const own of document.querySelectorAll<HTMLElement>('[data-text]'))
    own.textContent = text(own.dataset.text);
  for (const own of document.querySelectorAll<HTMLElement>('[data-label]'))
    own.setAttribute('aria-label', text(own.dataset.label));
}

/** Saves a file by the browser's own means. */
export function saveFile(name: string, bytes: Uint8Array<ArrayBuffer>, type: string): void {
  const address = URL.createObjectURL(new Blob([bytes], { type }));
  const link = element('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download reads the address after the click.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
