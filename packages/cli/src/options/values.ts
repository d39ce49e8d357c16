import { readFileSync } from 'node:fs';
import { type AnnotateOptions, HandlineError, handModel, type Language, type Layer } from '@handline/core';
import { usageError } from '../exit.js';
import { parsedJson } from '../files/json.js';
import { asTyped } from '../mistakes/core-options.js';
import { didYouMean } from '../mistakes/nearest.js';

type Hand = 'right' | 'left';

/** Records rather than lists, so that the compiler asks for a layer or language that core has gained. */
const LAYER_NAMES: Readonly<Record<Layer, true>> = {
  depth: true,
  crossing: true,
  carry: true,
  contour: true,
  roll: true,
};
const LANGUAGE_NAMES: Readonly<Record<Language, true>> = { en: true, de: true, fr: true, es: true, it: true };

export const LAYERS = Object.keys(LAYER_NAMES) as Layer[];
export const LANGUAGES = Object.keys(LANGUAGE_NAMES) as Language[];

/** `a, b` as a list; an empty item is a typing mistake. */
export function parseList(option: string, text: string): string[] {
  const items = text.split(',').map((item) => item.trim());
  if (items.includes('')) throw usageError(`--${option} ${text}: a name is missing; give names such as a,b`);
  return items;
}

/** `right=X,left=Y` by hand, or undefined where the text names no hand. */
function parseByHand(option: string, text: string): Partial<Record<Hand, string>> | undefined {
  if (!text.includes('=')) return undefined;
  const byHand: Partial<Record<Hand, string>> = {};
  for (const item of parseList(option, text)) {
    const match = /^(right|left)=(.+)$/.exec(item);
    const hand = match?.[1] as Hand | undefined;
    if (match === null || hand === undefined || byHand[hand] !== undefined) {
      throw usageError(
        `--${option} ${text}: "${item}" is not understood; write right=...,left=..., each once`,
      );
    }
    byHand[hand] = match[2] ?? '';
  }
  return byHand;
}

/** `--span 9th`, `--span 210`, `--span 21cm`, `--span octave`, `--span right=9th,left=small`, and `18,5cm` as well as `18.5cm`. */
export function parseSpan(typed: string): NonNullable<AnnotateOptions['span']> {
  const text = typed.replace(/(\d),(?=\d)/g, '$1.');
  const byHand = parseByHand('span', text);
  if (byHand === undefined) return spanIn(text, text);
  return Object.fromEntries(Object.entries(byHand).map(([hand, own]) => [hand, spanIn(own, text)]));
}

/** Names of the intervals that a span can be, by number of white keys. */
const INTERVALS: Readonly<Record<string, number>> = {
  seventh: 7,
  octave: 8,
  ninth: 9,
  tenth: 10,
  eleventh: 11,
  twelfth: 12,
};

/** A span in centimetres or by the interval's name, as core has it; a bare small number may be either, and is refused. */
function spanIn(own: string, typed: string): string {
  const text = own.trim().toLowerCase();
  const centimetres = /^(\d+(?:\.\d+)?)\s*cm$/.exec(text)?.[1];
  if (centimetres !== undefined) return ofAHand(String(Math.round(Number(centimetres) * 100) / 10), own);
  if (Object.hasOwn(INTERVALS, text)) return `${INTERVALS[text]}th`;
  const number = /^\d{1,2}(?:\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  if (Number.isInteger(number) && number >= 7 && number <= 12)
    throw usageError(`--span ${typed}: write ${number}th for the interval`);
  if (number > 12) {
    throw usageError(
      `--span ${typed}: write ${Math.round(number * 10)} for ${number} cm, as spans are in mm`,
    );
  }
  return ofAHand(own, own);
}

/** Core decides what a span may be, in mm. @param own the span as it is typed */
function ofAHand(span: string, own: string): string {
  try {
    handModel(span);
    return span;
  } catch (error) {
    if (!(error instanceof HandlineError)) throw error;
    const told = asTyped(error).replace(`"${span}"`, () => `"${own}"`);
    throw usageError(told.replace(/(?<=; give )(\d+)0-(\d+)0 mm/, '$& or $1-$2 cm'));
  }
}

/** `--staff right=1,left=2`, several staves as `right=1+2`, or `right` alone for a part with a single staff. */
export function parseStaff(text: string): NonNullable<AnnotateOptions['staff']> {
  if (text === 'right' || text === 'left') return { [text]: [1] };
  const staves = (value: string): number[] =>
    value.split('+').map((number) => {
      if (!/^[1-9]\d?$/.test(number)) {
        throw usageError(
          `--staff ${text}: "${number}" is not a staff number; write right=1,left=2 or right=1+2,left=3`,
        );
      }
      return Number(number);
    });
  const byHand = parseByHand('staff', text);
  if (byHand === undefined) {
    throw usageError(
      `--staff ${text}: no hand is named; write right=1,left=2, or right or left for one staff`,
    );
  }
  return {
    ...(byHand.right === undefined ? {} : { right: staves(byHand.right) }),
    ...(byHand.left === undefined ? {} : { left: staves(byHand.left) }),
  };
}

/** `--measures 5-12` or `--measures 7`: numbers as printed, which need not be digits (`X1-X2`). */
export function parseMeasures(text: string): NonNullable<AnnotateOptions['measures']> {
  const [from, to, ...rest] = text.split('-').map((number) => number.trim());
  if (!from || to === '' || rest.length > 0) {
    throw usageError(`--measures ${text} is not understood; give printed measure numbers such as 5-12 or 7`);
  }
  return { from, to: to ?? from };
}

/** `--layers depth,carry`, `all`, or `none` for digits alone. */
export function parseLayers(text: string): Layer[] {
  if (text === 'none') return [];
  if (text === 'all') return [...LAYERS];
  return parseList('layers', text).map((name) => {
    const layer = LAYERS.find((known) => known === name);
    if (layer === undefined) {
      throw usageError(
        `--layers ${text}: there is no layer "${name}"; choose from ${LAYERS.join(', ')}, or all or none${didYouMean(name, [...LAYERS, 'all', 'none'])}`,
      );
    }
    return layer;
  });
}

export function parseCount(option: string, text: string, least: number): number {
  const value = /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN;
  if (!(value >= least)) throw usageError(`--${option} ${text}: give a whole number, at least ${least}`);
  return value;
}

/** Reads a wording file: a JSON object whose values are the texts of single cues, by cue key. */
export function readWording(path: string): Record<string, string> {
  const value = parsedJson(contentOf(path), `--wording ${path}`, WORDING_ADVICE);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw usageError(`--wording ${path} does not hold an object${WORDING_ADVICE}`);
  }
  const wording: Record<string, string> = Object.create(null);
  for (const [key, text] of Object.entries(value)) {
    if (typeof text !== 'string')
      throw usageError(`--wording ${path}: the text for "${key}" is not a string; put it in quotes`);
    wording[key] = text;
  }
  return { ...wording };
}

const WORDING_ADVICE = '; give a JSON file such as {"in": "in"}';

function contentOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    throw usageError(`--wording ${path} cannot be read${WORDING_ADVICE}`);
  }
}
