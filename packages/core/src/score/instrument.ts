/** What a score says about the instrument of a part. */
export interface InstrumentEvidence {
  /** Part and instrument names. */
  readonly names: readonly string[];
  /** MusicXML instrument sounds such as `keyboard.piano`. */
  readonly sounds: readonly string[];
  /** MIDI programs, 1 ... 128. */
  readonly programs: readonly number[];
  readonly staves: number;
}

// Names of keyboard instruments in the languages of engraved scores (common practice).
const KEYBOARD =
  /piano|pianoforte|klavier|clavier|fl[üu]gel|keyboard|harpsichord|cembalo|clavecin|clavicordio|clavichord|clave\b|spinet|virginal|\borgan\b|\borgue\b|[óo]rgano\b|orgel|celest|klavichord|teclado|\bpno\b|\bkl(?:av)?\.|harmonium/i;
const OTHER =
  /\bharp(?:e|s)?\b|harfe|\barpa\b|marimba|vibra|xylo|glocken|violin|\bviola\b|cello|\bbass\b|guitar|gitarre|flute|fl[öo]te|voice|choir|chor\b|soprano|\balto\b|tenor|accord[ie]on|akkordeon|drum|percussion|timpani|orchestra|strings/i;

/** General MIDI level 1 programs of keyboard instruments: pianos and harpsichords 1-8, celesta 9, organs 17-21. */
function isKeyboardProgram(program: number): boolean {
  return (program >= 1 && program <= 9) || (program >= 17 && program <= 21);
}

/**
 * True where a part is played on a keyboard by two hands. A name decides before a sound, a sound before a MIDI
 * program (many programs are left at 1 whatever the instrument is); without any of them two or more staves
 * count as a keyboard.
 */
export function isKeyboard(evidence: InstrumentEvidence): boolean {
  const { names, sounds, programs, staves } = evidence;
  if (names.some((name) => KEYBOARD.test(name))) return true;
  if (names.some((name) => OTHER.test(name))) return false;
  if (sounds.length > 0) return sounds.some((sound) => sound.startsWith('keyboard.'));
  if (programs.length > 0) return programs.some(isKeyboardProgram);
  return staves >= 2;
}
