import { type HandModel, handModel } from '../anatomy/hand.js';
import { DEFAULT_LAYERS } from '../cues/keys.js';
import { cueWording } from '../cues/wording.js';
import { DEFAULT_LIMITS } from '../options/limits.js';
import type {
  AnnotateOptions,
  Criterion,
  Density,
  Language,
  Layer,
  Limits,
  SpanOption,
} from '../options/options.js';
import type { Draft } from '../score/draft.js';
import type { Hand } from '../score/model.js';

/** Options with every default filled in. */
export interface Settings {
  readonly file?: string;
  readonly hands: 'both' | Hand;
  readonly parts?: readonly string[];
  readonly staff?: NonNullable<AnnotateOptions['staff']>;
  readonly model: Readonly<Record<Hand, HandModel>>;
  readonly measures?: { readonly from: string; readonly to: string };
  readonly layers: readonly Layer[];
  readonly by: Criterion;
  readonly density: Density;
  readonly language: Language;
  /** Language of the warnings: those that are refused are errors, in English like all others. */
  readonly messages: Language;
  readonly wording: Readonly<Record<string, string>>;
  readonly legend: boolean;
  readonly digits: 'all' | 'sparse' | 'none';
  readonly existing: 'keep' | 'ignore' | 'replace';
  readonly shareHands: boolean;
  readonly alternatives: number;
  readonly nextBest: boolean;
  readonly slices: boolean;
  readonly strict: boolean;
  readonly limits: Limits;
  /** Measures, by index, with which stretches begin that are fingered each for itself; absent: there is one. */
  readonly stretches?: readonly number[];
}

/**
 * @param options that `checkMarking` or `checkReading` passed
 * @throws HandlineError OPTION for a bad span, or a wording for a cue that does not exist
 */
export function settingsOf(options: AnnotateOptions): Settings {
  const span = options.span ?? 'medium';
  const spans: { readonly right?: SpanOption; readonly left?: SpanOption } =
    typeof span === 'object' ? span : { right: span, left: span };
  const language = options.language ?? 'en';
  const wording = options.wording ?? {};
  cueWording(language, wording);
  // One model for both hands where they are alike, so that what is cached for one serves the other.
  const right = handModel(spans.right ?? 'medium');
  const left = spans.left === spans.right ? right : handModel(spans.left ?? 'medium');
  return {
    ...(options.file !== undefined && { file: options.file }),
    ...(options.parts !== undefined && { parts: options.parts }),
    ...(options.staff !== undefined && { staff: options.staff }),
    ...(options.measures !== undefined && { measures: options.measures }),
    hands: options.hands ?? 'both',
    model: { right, left },
    layers: options.layers ?? DEFAULT_LAYERS,
    by: options.by ?? 'usage',
    density: options.density ?? 'essential',
    language,
    messages: options.strict ? 'en' : language,
    wording,
    legend: options.legend ?? false,
    digits: options.digits ?? 'all',
    existing: options.existing ?? 'keep',
    shareHands: options.shareHands ?? false,
    alternatives: options.alternatives ?? 0,
    nextBest: options.nextBest ?? false,
    slices: options.slices ?? true,
    strict: options.strict ?? false,
    limits: limitsOf(options.limits),
  };
}

/** The limits that are given, and the defaults of the others. */
export function limitsOf(given: Partial<Limits> = {}): Limits {
  const limits: Draft<Limits> = { ...DEFAULT_LIMITS };
  for (const name of Object.keys(limits) as (keyof Limits)[]) limits[name] = given[name] ?? limits[name];
  return limits;
}
