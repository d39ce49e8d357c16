import fc from 'fast-check';

/** What stands in a note's `<notations>` before we come. */
export const NOTATIONS = [
  'none',
  'self-closed',
  'empty',
  'articulation',
  'technical-self-closed',
  'technical-empty',
  'technical-bow',
  'digit',
  'two-digits',
  'no-digit-text',
  'two-notations',
  'hidden',
  'editorial',
] as const;
export type NotationsKind = (typeof NOTATIONS)[number];

/** One step on the keyboard: letter, alteration, octave. */
export interface Head {
  readonly step: string;
  readonly alter: -1 | 0 | 1;
  readonly octave: number;
}

/** What happens in a voice; `units` are sixteenths. A tie splits the event in two tied halves. */
export interface Event {
  readonly kind: 'note' | 'rest' | 'forward' | 'triplet' | 'cue';
  readonly heads: readonly Head[];
  readonly units: 1 | 2 | 3 | 4 | 6 | 8;
  readonly graces: readonly (readonly Head[])[];
  readonly tied: boolean;
  readonly crossStaff: boolean;
  readonly notations: NotationsKind;
  readonly lyric: boolean;
  readonly before: 'nothing' | 'words' | 'dynamics' | 'clef' | 'harmony';
}

export interface MeasureModel {
  readonly divisions: 12 | 24;
  /** One list a voice; `backup` between them. */
  readonly voices: readonly (readonly Event[])[];
}

export interface Style {
  readonly newline: '\n' | '\r\n' | '\r' | '';
  readonly indent: '  ' | '\t' | ' ' | '';
  /** Whole notes on one line each, as some programs write them. */
  readonly notesInline: boolean;
  readonly quote: '"' | "'";
  readonly head: 'declaration' | 'bom' | 'none' | 'public' | 'subset';
  readonly version: '1.0' | '1.1' | '2.0' | '3.0' | '3.1' | '4.0' | undefined;
  readonly timewise: boolean;
  readonly credits: boolean;
  /** Choices for oddities between tags, used round and round; 0 stands for none. */
  readonly noise: readonly number[];
}

export interface ScoreModel {
  /** Parts with one or two staves; all have as many measures as the first. */
  readonly parts: readonly { readonly staves: 1 | 2; readonly measures: readonly MeasureModel[] }[];
  readonly style: Style;
}

const head: fc.Arbitrary<Head> = fc.record({
  step: fc.constantFrom(...'CDEFGAB'),
  alter: fc.constantFrom(0, 0, 0, 1, -1),
  octave: fc.integer({ min: 2, max: 6 }),
});

/** Heads of one chord differ in step or octave, so that a reader can tell them apart. */
function chord(maxLength: number): fc.Arbitrary<Head[]> {
  return fc.uniqueArray(head, {
    minLength: 1,
    maxLength,
    selector: ({ step, octave }) => `${step}${octave}`,
  });
}

const event: fc.Arbitrary<Event> = fc.record({
  kind: fc.constantFrom('note', 'note', 'note', 'note', 'note', 'rest', 'forward', 'triplet', 'cue'),
  heads: chord(4),
  units: fc.constantFrom(4, 2, 1, 3, 6, 8),
  graces: fc.oneof({ weight: 4, arbitrary: fc.constant([]) }, fc.array(chord(2), { maxLength: 2 })),
  tied: fc.constantFrom(false, false, false, true),
  crossStaff: fc.constantFrom(false, false, false, true),
  notations: fc.constantFrom<NotationsKind>('none', 'none', 'none', 'none', ...NOTATIONS),
  lyric: fc.constantFrom(false, false, true),
  before: fc.constantFrom('nothing', 'nothing', 'nothing', 'nothing', 'words', 'dynamics', 'clef', 'harmony'),
});

const measure: fc.Arbitrary<MeasureModel> = fc.record({
  divisions: fc.constantFrom(12, 24),
  voices: fc.array(fc.array(event, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 3 }),
});

const style: fc.Arbitrary<Style> = fc.record({
  newline: fc.constantFrom('\n', '\n', '\r\n', '\r', ''),
  indent: fc.constantFrom('  ', '\t', ' ', ''),
  notesInline: fc.boolean(),
  quote: fc.constantFrom('"', "'"),
  head: fc.constantFrom('declaration', 'bom', 'none', 'public', 'subset'),
  version: fc.constantFrom('4.0', '3.1', '3.0', '2.0', '1.1', '1.0', undefined),
  timewise: fc.constantFrom(false, false, false, true),
  credits: fc.boolean(),
  noise: fc.array(fc.oneof({ weight: 6, arbitrary: fc.constant(0) }, fc.nat(12)), {
    minLength: 1,
    maxLength: 30,
  }),
});

/** Scores that are valid MusicXML whatever is drawn; `toXml` writes them. */
export const scoreModel: fc.Arbitrary<ScoreModel> = fc.record({
  parts: fc
    .tuple(
      fc.array(
        fc.record({
          staves: fc.constantFrom(2, 2, 1),
          measures: fc.array(measure, { minLength: 1, maxLength: 3 }),
        }),
        { minLength: 1, maxLength: 2 },
      ),
    )
    .map(([parts]) => {
      const length = Math.min(...parts.map((part) => part.measures.length));
      return parts.map((part) => ({ ...part, measures: part.measures.slice(0, length) }));
    }),
  style,
}) as fc.Arbitrary<ScoreModel>;

/** Scores without some shapes of notations: outside readers look at the first ones of a note only, where ours may not be. */
export function withoutNotations(...kinds: readonly NotationsKind[]): fc.Arbitrary<ScoreModel> {
  const plain = (event: Event): Event =>
    kinds.includes(event.notations) ? { ...event, notations: 'none' } : event;
  return scoreModel.map((model) => {
    const parts = model.parts.map((part) => ({
      ...part,
      measures: part.measures.map((measure) => ({
        ...measure,
        voices: measure.voices.map((voice) => voice.map(plain)),
      })),
    }));
    return { ...model, parts };
  });
}
