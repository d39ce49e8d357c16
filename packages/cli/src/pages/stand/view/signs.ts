import type { Language, Report } from '@handline/core';
import { DASHES, occurringCues } from '../../handout/occurring-cues.js';
import { fill, HANDOUT_WORDS } from '../../handout/words/words.js';
import { byId, element } from './dom.js';

/** Explains the cues and the signs of the bands that occur in the music, as a handout does. */
export function showSigns(language: Language, { lines }: Report): void {
  const words = HANDOUT_WORDS[language];
  const cues = lines.flatMap(({ slices }) => slices.flatMap(({ cue }) => cue ?? []));
  if (inMusic('.dir text + rect')) cues.push(DASHES);
  const meanings = occurringCues(cues, language).map(
    ({ texts, meaning }): Sign => [texts.join(', '), meaning],
  );
  const [under] = labelOf('under').split('–');
  const [, over] = labelOf('over').split('–');
  const signs: readonly (Sign | undefined)[] = [
    sign('in', '▲', words.signIn),
    sign('out', '▼', words.signOut),
    sign('stays', '●', words.signStays),
    under ? [`${under}–1`, fill(words.signUnder, { finger: under })] : undefined,
    over ? [`1–${over}`, fill(words.signOver, { finger: over })] : undefined,
    sign('black-keys', '░', words.signBlack),
    sign('lifted', '┄', words.signLifted),
    inMusic('.carry .key') ? ['○', words.signCarry] : undefined,
  ];
  const box = byId('signs');
  box.querySelector('summary')!.textContent = words.signs;
  box.querySelector('p')!.textContent = words.ribbon;
  box
    .querySelector('ul')!
    .replaceChildren(
      ...[...meanings, ...signs.filter((own) => own !== undefined)].map(([text, meaning]) =>
        element('li', '', [element('b', text), new Text(` ${meaning}`)]),
      ),
    );
  box.hidden = false;
}

type Sign = readonly [sign: string, meaning: string];

/** A sign that the bands of the forearm have somewhere. */
function sign(name: string, text: string, meaning: string): Sign | undefined {
  return inMusic(`.depth .${name}`) ? [text, meaning] : undefined;
}

/** The fingers at the first arc above or below a band. */
function labelOf(row: 'over' | 'under'): string {
  return inMusic(`.depth text.${row}`)?.textContent ?? '';
}

function inMusic(selector: string): Element | null {
  return byId('music').querySelector(selector);
}
