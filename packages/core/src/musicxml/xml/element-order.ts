/** The children of a `<note>` in the order of the schema (MusicXML 4.0, complex type note), which earlier versions share. */
const ORDER: ReadonlyMap<string, number> = new Map(
  [
    ['grace'],
    ['cue'],
    ['chord'],
    ['pitch', 'unpitched', 'rest'],
    ['duration'],
    ['tie'],
    ['instrument'],
    ['footnote'],
    ['level'],
    ['voice'],
    ['type'],
    ['dot'],
    ['accidental'],
    ['time-modification'],
    ['stem'],
    ['notehead'],
    ['notehead-text'],
    ['staff'],
    ['beam'],
    ['notations'],
    ['lyric'],
    ['play'],
    ['listen'],
  ].flatMap((names, rank) => names.map((name) => [name, rank])),
);

/** Rank of a child of a `<note>`; children of one rank may stand in any order. NaN, which is in no order, for others. */
export function rankOf(name: string | undefined): number {
  return (name === undefined ? undefined : ORDER.get(name)) ?? Number.NaN;
}
