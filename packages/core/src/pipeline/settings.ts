import { type HandModel, handModel } from '../anatomy/hand.js';
import { CUE_LAYERS, DEFAULT_LAYERS } from '../cues/keys.js';
import { cueWording, LANGUAGES } from '../cues/wording.js';
import { DEFAULT_LIMITS, HIGHEST_LIMITS } from '../options/limits.js';
import type { AnnotateOptions, Density, Language, Layer, Limits, SpanOption } from '../options/options.js';
import { HandlineError } from '../score/errors.js';
import type { Hand } from '../score/model.js';

/** Options with every default filled in and every value checked. */
export interface Settings {
  readonly file?: string;
  readonly hands: 'both' | Hand;
  readonly parts?: readonly string[];
  readonly staff?: NonNullable<AnnotateOptions['staff']>;
  readonly model: Readonly<Record<Hand, HandModel>>;
  readonly measures?: { readonly from: string; readonly to: string };
  readonly layers: readonly Layer[];
  readonly density: Density;
  readonly language: Language;
  readonly wording: Readonly<Record<string, string>>;
  readonly legend: boolean;
  readonly digits: 'all' | 'sparse' | 'none';
  readonly existing: 'keep' | 'ignore' | 'replace';
  readonly alternatives: number;
  readonly strict: boolean;
  readonly limits: Limits;
}

const LAYERS = [...new Set(Object.values(CUE_LAYERS))] as const;
const MOST_ALTERNATIVES = 9;

function oneOf<T extends string>(name: string, value: T, allowed: readonly T[]): T {
  if (allowed.includes(value)) return value;
  throw new HandlineError('OPTION', `${name}: ${JSON.stringify(value)} is none of ${allowed.join(', ')}`);
}

/** @throws HandlineError OPTION that names the option and what it allows */
export function checkOptions(options: AnnotateOptions): Settings {
  const span = options.span ?? 'medium';
  const spans: { readonly right?: SpanOption; readonly left?: SpanOption } =
    typeof span === 'object' ? span : { right: span, left: span };
  const language = oneOf('language', options.language ?? 'en', Object.keys(LANGUAGES) as Language[]);
  const wording = options.wording ?? {};
  cueWording(language, wording);
  const alternatives = options.alternatives ?? 0;
  if (!Number.isInteger(alternatives) || alternatives < 0 || alternatives > MOST_ALTERNATIVES) {
    throw new HandlineError(
      'OPTION',
      `alternatives: ${alternatives} is no count from 0 to ${MOST_ALTERNATIVES}`,
    );
  }
  // One model for both hands where they are alike, so that what is worked out for one serves the other.
  const right = handModel(spans.right ?? 'medium');
  const left = spans.left === spans.right ? right : handModel(spans.left ?? 'medium');
  return {
    ...(options.file !== undefined && { file: options.file }),
    ...(options.parts !== undefined && { parts: options.parts }),
    ...(options.staff !== undefined && { staff: options.staff }),
    ...(options.measures !== undefined && { measures: options.measures }),
    hands: oneOf('hands', options.hands ?? 'both', ['both', 'right', 'left']),
    model: { right, left },
    layers: (options.layers ?? DEFAULT_LAYERS).map((layer) => oneOf('layers', layer, LAYERS)),
    density: oneOf('density', options.density ?? 'essential', ['every', 'essential', 'demanding']),
    language,
    wording,
    legend: options.legend ?? false,
    digits: oneOf('digits', options.digits ?? 'all', ['all', 'sparse', 'none']),
    existing: oneOf('existing', options.existing ?? 'keep', ['keep', 'ignore', 'replace']),
    alternatives,
    strict: options.strict ?? false,
    limits: checkLimits(options.limits),
  };
}

/** @throws HandlineError OPTION where a limit is no positive number, or beyond what can be read */
export function checkLimits(limits: Partial<Limits> = {}): Limits {
  for (const [name, value] of Object.entries(limits)) {
    if (!Object.hasOwn(DEFAULT_LIMITS, name) || !(value > 0)) {
      const names = Object.keys(DEFAULT_LIMITS).join(', ');
      throw new HandlineError(
        'OPTION',
        `limits: ${name} ${value} is no limit; give a positive number for ${names}`,
      );
    }
  }
  for (const [name, most] of Object.entries(HIGHEST_LIMITS)) {
    const value = limits[name as keyof Limits] ?? 0;
    if (value > most) throw new HandlineError('OPTION', `limits.${name} ${value} is more than ${most}`);
  }
  return { ...DEFAULT_LIMITS, ...limits };
}
