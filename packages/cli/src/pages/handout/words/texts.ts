/** The texts of the handout in one language, with `{...}` to fill in. */
export interface HandoutWords {
  readonly untitled: string;
  readonly student: string;
  readonly teacherNotes: string;
  readonly contents: string;
  readonly music: string;
  readonly measures: string;
  readonly measure: string;
  /** A measure before the first one, and `{to}` which one from there. */
  readonly upbeat: string;
  readonly upbeatTo: string;
  readonly asPrinted: string;
  readonly easier: string;
  readonly compared: string;
  readonly keyboard: string;
  /** Heading of chords beyond the hand, what stands above their ways out, and `{count}` more. */
  readonly outOfReach: string;
  readonly waysOut: string;
  readonly more: string;
  readonly findings: string;
  readonly noFindings: string;
  readonly moreFindings: string;
  readonly oneMoreFinding: string;
  /** `{where}` in measures, `{beat}`, `{hand}`. */
  readonly place: string;
  /** Between a place and what is said of it. */
  readonly colon: string;
  readonly hands: { readonly right: string; readonly left: string };
  readonly signs: string;
  readonly ribbon: string;
  readonly signIn: string;
  readonly signOut: string;
  readonly signStays: string;
  readonly signBlack: string;
  readonly signLifted: string;
  readonly signUnder: string;
  readonly signOver: string;
  readonly signCarry: string;
  readonly viewPlays: string;
  readonly viewHolds: string;
  readonly viewElsewhere: string;
  readonly viewDepth: string;
  readonly viewMove: string;
  readonly viewWay: string;
  readonly viewArm: string;
  readonly caution: string;
  readonly engraved: string;
}
