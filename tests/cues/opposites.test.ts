import { describe, expect, it } from 'vitest';
import type { CueKey } from '#core/cues/keys.js';
import { LANGUAGES } from '#core/cues/wording.js';
import type { Language } from '#core/options/options.js';

/*
 * No table of words can say by itself that two of its texts are the wrong way round: the stems of each side, by language,
 * from memory.
 */

type Sides = readonly [one: RegExp, other: RegExp];

const DIRECTIONS: Readonly<Record<Language, Sides>> = {
  en: [/\bin\b|towards/, /\bout\b|away|\bfrom\b/],
  de: [/hinein|zur Tastenklappe/, /heraus|von der Tastenklappe/],
  fr: [/\bentre|vers le couvercle/, /\bsort|\bdu couvercle/],
  es: [/\bentra|hacia la tapa/, /\bsal(?:e|ir)\b|\b(?:de|desde) la tapa/],
  it: [/\bentra|verso il coperchio/, /\bes(?:ci|ce)\b|dal coperchio/],
};

const SIDES: Readonly<Record<Language, Sides>> = {
  en: [/right/, /left/],
  de: [/rechts/, /links/],
  fr: [/droite/, /gauche/],
  es: [/derecha|\bder\./, /izquierda|\bizq\./],
  it: [/destra|\bdx/, /sinistra|\bsx/],
};

/** The thumb's side of the hand, and the fifth finger's. */
const TURNS: Readonly<Record<Language, Sides>> = {
  en: [/(?<!away from )(?:to|towards) the thumb/, /away from|fifth/],
  de: [/Daumen/, /5\. Finger|Kleinfinger/],
  fr: [/pouce/, /5e|cinquième/],
  es: [/pulgar/, /5\.º|quinto/],
  it: [/pollice/, /5º|quinto/],
};

const OVER_AND_UNDER: Readonly<Record<Language, Sides>> = {
  en: [/over/, /under/],
  de: [/über/, /unter/],
  fr: [/dessus/, /dessous/],
  es: [/encima/, /debajo/],
  it: [/sopra/, /sotto/],
};

const RISING_AND_LEVEL: Readonly<Record<Language, Sides>> = {
  en: [/rises/, /level/],
  de: [/heben|steigt/, /senken|kehrt/],
  fr: [/lever|monte/, /baisser|revient/],
  es: [/sub(?:e|ir)\b/, /bajar|vuelve/],
  it: [/alza|sale/, /abbassa|torna/],
};

const HANDS: Readonly<Record<Language, Sides>> = {
  en: [/^r|right/, /^l|left/],
  de: [/^r|rechte/, /^l|linke/],
  fr: [/d\.$|droite/, /g\.$|gauche/],
  es: [/d\.$|derecha/, /i\.$|izquierda/],
  it: [/d\.$|destra/, /s\.$|sinistra/],
};

/**
 * What tells the player to move: one form in each language. German has its infinitives and adverbs of direction, French and
 * Spanish their infinitives, Italian the imperative, as their teachers write (common practice).
 */
const FORMS: Readonly<Record<Language, RegExp>> = {
  en: /^(?:forearm )?(?:leans? ?|far |further |)(?:in|out)?$/,
  de: /^(?:Unterarm )?(?:leicht |weit |weiter )?(?:hinein|heraus)$/,
  fr: /^(?:avant-bras\u00a0: )?(?:entrer|sortir)(?: un peu| loin| encore)?$/,
  es: /^(?:antebrazo: )?(?:entrar|salir)(?: un poco| mucho| más)?$/,
  it: /^(?:avambraccio: )?(?:entra|esci)(?: un poco| molto| ancora)?$/,
};
const VERBS: Readonly<Record<Language, RegExp>> = {
  en: /^(?:thumb|wrist) /,
  de: /n$/,
  fr: /^\p{L}+er /u,
  es: /^\p{L}+[ai]r /u,
  it: /^\p{L}+a /u,
};

describe.each(Object.keys(LANGUAGES) as Language[])('%s', (code) => {
  const words = LANGUAGES[code];
  const texts = (key: CueKey): string[] =>
    [words.cues[key], words.full[key] ?? [], words.meanings[key]].flat();

  function expectSides(one: readonly string[], other: readonly string[], [first, second]: Sides): void {
    for (const text of one) {
      expect(text).toMatch(first);
      expect(text).not.toMatch(second);
    }
    for (const text of other) {
      expect(text).toMatch(second);
      expect(text).not.toMatch(first);
    }
  }

  it('says in where the forearm goes in, and out where it comes out', () => {
    const ins = (['in', 'far-in', 'further-in'] as const).flatMap(texts);
    const outs = (['out', 'far-out', 'further-out'] as const).flatMap(texts);
    expectSides(ins, outs, DIRECTIONS[code]);
    const { own, ready, evenly } = words.reasons;
    for (const reason of [own, ready, evenly]) expectSides([reason.in], [reason.out], DIRECTIONS[code]);
  });

  it('tells all ways in and out in one form, and the wrist and the thumb in verbs of one', () => {
    const { cues, full } = words;
    const ways = (['in', 'far-in', 'further-in', 'lean', 'out', 'far-out', 'further-out'] as const).flatMap(
      (key) => [cues[key], full[key] ?? []].flat(),
    );
    for (const text of ways) expect(text).toMatch(FORMS[code]);
    for (const key of ['wrist-rises', 'wrist-level', 'thumb-passes'] as const)
      expect(full[key] ?? cues[key]).toMatch(VERBS[code]);
  });

  it('keeps right and left, thumb and fifth finger, over and under, rising and level apart', () => {
    expectSides(texts('arm-right'), texts('arm-left'), SIDES[code]);
    expectSides(texts('turn-thumb'), texts('turn-fifth'), TURNS[code]);
    expectSides(texts('hand-over'), texts('hand-under'), OVER_AND_UNDER[code]);
    expectSides(texts('wrist-rises'), texts('wrist-level'), RISING_AND_LEVEL[code]);
    const { hands, takes } = words;
    expectSides([hands.right, takes.right], [hands.left, takes.left], HANDS[code]);
  });
});
