import type { Density, Language, Layer } from '@handline/core';
import { fill } from '../../handout/words/words.js';
import { keepSettings } from '../kept.js';
import type { Settings } from '../session.js';
import { LANGUAGE_NAMES, STAND_WORDS } from '../words/words.js';
import { byId, element } from './dom.js';

const PRESETS = ['small', 'medium', 'large'] as const;
const INTERVALS = [7, 8, 9, 10, 11, 12];

/** Draws the choices in the chosen language; keeps every change for a reload, and tells of it. */
export function showSettings(settings: Settings, told: (settings: Settings) => void): void {
  const changed = (own: Settings) => {
    keepSettings(own);
    told(own);
  };
  const words = STAND_WORDS[settings.language];
  const focused = document.activeElement?.id;
  const { span, layers } = settings;
  const spans = (own: string): [string, string][] => {
    const usual: [string, string][] = [
      ...PRESETS.map((name): [string, string] => [name, words.spans[name]]),
      ...INTERVALS.map((number): [string, string] => [`${number}th`, fill(words.interval, { number })]),
    ];
    return usual.some(([value]) => value === own) ? usual : [...usual, [own, `${own} mm`]];
  };
  const densities = Object.entries(words.densities);
  byId('form').replaceChildren(
    choice('language', words.language, Object.entries(LANGUAGE_NAMES), settings.language, (language) =>
      changed({ ...settings, language: language as Language }),
    ),
    choice('span-right', words.spanRight, spans(span.right), span.right, (right) =>
      changed({ ...settings, span: { ...span, right } }),
    ),
    choice('span-left', words.spanLeft, spans(span.left), span.left, (left) =>
      changed({ ...settings, span: { ...span, left } }),
    ),
    choice('density', words.density, densities, settings.density, (density) =>
      changed({ ...settings, density: density as Density }),
    ),
    layerChoice(words.layers, words.layerNames, layers, (chosen) => changed({ ...settings, layers: chosen })),
  );
  if (focused) document.getElementById(focused)?.focus();
}

function choice(
  id: string,
  name: string,
  options: readonly (readonly [string, string])[],
  chosen: string,
  changed: (value: string) => void,
): HTMLElement {
  const select = element('select');
  select.id = id;
  for (const [value, text] of options) {
    const option = element('option', text);
    option.value = value;
    option.selected = value === chosen;
    select.append(option);
  }
  select.addEventListener('change', () => changed(select.value));
  return element('label', '', [element('span', name), select]);
}

function layerChoice(
  name: string,
  names: Readonly<Record<Layer, string>>,
  chosen: readonly Layer[],
  changed: (layers: Layer[]) => void,
): HTMLElement {
  const boxes = (Object.keys(names) as Layer[]).map((layer) => {
    const box = element('input');
    box.type = 'checkbox';
    box.id = `layer-${layer}`;
    box.checked = chosen.includes(layer);
    box.addEventListener('change', () =>
      changed(
        (Object.keys(names) as Layer[]).filter((own) => (own === layer ? box.checked : chosen.includes(own))),
      ),
    );
    return element('label', '', [box, element('span', names[layer])]);
  });
  return element('fieldset', '', [element('legend', name), ...boxes]);
}
