import type { Finger, Hand } from '../score/model.js';
import { type Comparison, compare, type Player, ScaleFingering } from './awkward/compare.js';
import { type Fragment, fragmentPlaces, fragmentsOf } from './patterns/fragments.js';
import { reach, stepsOn } from './patterns/ladder-lines.js';
import { middleOctave } from './patterns/range.js';
import { type DrillSettings, secondsOf } from './settings.js';
import type { Exercise, Section, Step } from './sheet.js';
import type { Subject } from './subject.js';
import { filled, keyTitle, noteName } from './words/languages.js';

/** mm that the scale's fingering must cost more to count as awkward: no player feels less (our choice). */
const FELT = 2;
/** Terms that a reason names. */
const REASONS = 2;

/** A fragment as each hand plays it. */
interface Played {
  readonly fragment: Fragment;
  /** By hand; a hand that does not play it has none. */
  readonly hands: Readonly<
    Partial<Record<Hand, { readonly octave: number; readonly comparison: Comparison }>>
  >;
}

/** Both hands' fingerings of one scale. */
class ScaleFragments {
  readonly #whole = new Map<Hand, ScaleFingering>();

  constructor(
    readonly subject: Subject,
    private readonly settings: DrillSettings,
  ) {}

  played(fragment: Fragment, hands: readonly Hand[]): Played {
    const { ladder } = this.subject;
    const { least, most } = reach(fragmentPlaces(fragment));
    const octave = this.settings.line.start ?? middleOctave(ladder, least - ladder.size, most);
    return {
      fragment,
      hands: Object.fromEntries(
        hands.map((hand) => {
          const own = hand === 'right' ? octave : octave - 1;
          return [
            hand,
            { octave: own, comparison: compare(ladder, fragment, own, this.#player(hand), this.#of(hand)) },
          ];
        }),
      ),
    };
  }

  #player(hand: Hand): Player {
    return { hand, model: this.settings.model[hand], seconds: secondsOf(this.settings) };
  }

  #of(hand: Hand): ScaleFingering {
    const known = this.#whole.get(hand);
    if (known) return known;
    const whole = new ScaleFingering(this.subject.ladder, this.#player(hand));
    this.#whole.set(hand, whole);
    return whole;
  }
}

/** Every fragment of a scale, its easiest fingering first, the scale's behind it where that is another one. */
export function fragmentSection(subject: Subject, settings: DrillSettings): Section {
  const { hands, line, fragments, words } = settings;
  const all = new ScaleFragments(subject, settings);
  const groups: readonly (readonly Hand[])[] =
    line.motion === 'separate' ? hands.map((hand) => [hand]) : [hands];
  const exercises = fragmentsOf(subject.ladder.size, fragments).flatMap((fragment) =>
    groups.flatMap((own) => printed(subject, all.played(fragment, own), settings)),
  );
  const key = keyTitle(subject.ladder.tonic, subject.kind, settings.language);
  return sectionOf(subject, filled(words.patterns.fragments, { key }), exercises);
}

/** The fragments, of all scales and either hand, whose scale fingering costs most over their easiest, worst first. */
export function awkwardSections(
  subjects: readonly Subject[],
  settings: DrillSettings,
  count: number,
  progress: (done: number) => void,
): readonly Section[] {
  const found = subjects.flatMap((subject, nth) => {
    progress(nth / subjects.length);
    const all = new ScaleFragments(subject, settings);
    return fragmentsOf(subject.ladder.size, settings.fragments).flatMap((fragment) =>
      settings.hands.map((hand) => {
        const played = all.played(fragment, [hand]);
        const { comparison } = played.hands[hand]!;
        return { subject, hand, played, saved: comparison.scaleMovement - comparison.easiestMovement };
      }),
    );
  });
  return found
    .filter(({ saved }) => saved >= FELT)
    .sort((a, b) => b.saved - a.saved)
    .slice(0, count)
    .map(({ subject, hand, played }, nth) => {
      const key = keyTitle(subject.ladder.tonic, subject.kind, settings.language);
      const heading = `${nth + 1}. ${key}, ${settings.words.hands[hand]}`;
      return sectionOf(subject, heading, printed(subject, played, settings));
    });
}

function sectionOf({ ladder }: Subject, heading: string, exercises: readonly Exercise[]): Section {
  return { heading, fifths: ladder.fifths, ...(ladder.mode && { mode: ladder.mode }), exercises };
}

/** A fragment with its easiest fingering, and again with the scale's where a hand has another one there. */
function printed(subject: Subject, played: Played, settings: DrillSettings): readonly Exercise[] {
  const { words } = settings;
  const comparisons = Object.values(played.hands).map(({ comparison }) => comparison);
  const name = nameOf(subject, played, settings);
  const sum = (of: (own: Comparison) => number) =>
    Math.round(comparisons.reduce((all, own) => all + of(own), 0));
  const easiest = exerciseOf(subject, played, settings, 'easiest');
  if (!comparisons.some(({ differs }) => differs)) return [{ ...easiest, remark: `${name}\n${words.same}` }];
  const mm = { easiest: sum((own) => own.easiestMovement), scale: sum((own) => own.scaleMovement) };
  return [
    { ...easiest, remark: `${name}\n${filled(words.easiest, { mm: mm.easiest })}` },
    {
      ...exerciseOf(subject, played, settings, 'scale'),
      remark: `${filled(words.asInScale, { mm: mm.scale })}\n${reasonOf(comparisons, settings)}`,
    },
  ];
}

function exerciseOf(
  { ladder }: Subject,
  { fragment, hands }: Played,
  { digits }: DrillSettings,
  which: 'easiest' | 'scale',
): Exercise {
  const steps = (hand: Hand): readonly Step[] => {
    const own = hands[hand];
    if (!own) return [];
    const fingers: readonly Finger[] = own.comparison[which];
    return stepsOn(ladder, own.octave, fragmentPlaces(fragment)).map((step, at) => ({
      ...step,
      ...(digits && { digits: [fingers[at]!] }),
    }));
  };
  return { steps: { right: steps('right'), left: steps('left') } };
}

/** Its first note, its turning point and its last note: `A flat–D flat–B flat`. */
function nameOf({ ladder }: Subject, { fragment, hands }: Played, { language }: DrillSettings): string {
  const { octave } = Object.values(hands)[0]!;
  const places = fragmentPlaces(fragment);
  const corners = [...new Set([0, fragment.turn - 1, fragment.length - 1])].map((at) => places[at]!);
  return corners.map(({ at, direction }) => noteName(ladder.at(at, octave, direction), language)).join('–');
}

/** What the scale's digits cost more, the dearest terms first: `sideways travel +18, crossing +12`. */
function reasonOf(comparisons: readonly Comparison[], { words }: DrillSettings): string {
  const more = new Map<string, number>();
  for (const { term, mm } of comparisons.flatMap(({ dearer }) => dearer)) {
    const name = words.terms[term] ?? words.otherTerm;
    more.set(name, (more.get(name) ?? 0) + mm);
  }
  return [...more]
    .sort((a, b) => b[1] - a[1])
    .slice(0, REASONS)
    .map(([name, mm]) => `${name} +${Math.round(mm)}`)
    .join(', ');
}
