import type { Language } from '@handline/core';
import { fill, HANDOUT_WORDS } from '../../handout/words/words.js';
import { byId, element } from './dom.js';

/** Explains the bands under the systems, as a handout does. */
export function showSigns(language: Language): void {
  const words = HANDOUT_WORDS[language];
  const signs = [
    ['▲', words.signIn],
    ['▼', words.signOut],
    ['●', words.signStays],
    ['3–1', fill(words.signUnder, { finger: 3 })],
    ['1–3', fill(words.signOver, { finger: 3 })],
    ['░', words.signBlack],
    ['┄', words.signLifted],
  ] as const;
  const box = byId('signs');
  box.querySelector('summary')!.textContent = words.signs;
  box.querySelector('p')!.textContent = words.ribbon;
  box
    .querySelector('ul')!
    .replaceChildren(
      ...signs.map(([sign, meaning]) => element('li', '', [element('b', sign), new Text(` ${meaning}`)])),
    );
}
