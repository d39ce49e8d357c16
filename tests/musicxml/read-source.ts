import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { decode } from '#core/musicxml/bytes/decode.js';
import { type ReadResult, readScore } from '#core/musicxml/read/score.js';
import { parseTree } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { HandlineError } from '#core/score/errors.js';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = join(ROOT, 'fixtures/read');

export const READ_FIXTURES = readdirSync(FOLDER).sort();

export function bytesOf(name: string): Uint8Array {
  return new Uint8Array(readFileSync(join(FOLDER, name)));
}

export function readText(text: string, file?: string): ReadResult {
  const context = { limits: DEFAULT_LIMITS };
  return readScore(
    parseTree(text, DEFAULT_LIMITS, file),
    text,
    file === undefined ? context : { ...context, file },
  );
}

export function readFixture(name: string): ReadResult {
  return readText(decode(bytesOf(name), DEFAULT_LIMITS, name).text, name);
}

/** Code and message of the refusal; fails where nothing is refused or by another kind of error. */
export function refusal(act: () => unknown): { code: string; message: string; line: number | undefined } {
  try {
    act();
  } catch (error) {
    if (!(error instanceof HandlineError)) throw error;
    return { code: error.code, message: error.message, line: error.place.line };
  }
  throw new Error('nothing was refused');
}

/** A partwise score of one part around the content of its measures. */
export function onePart(measures: readonly string[], name = 'Piano', head = ''): string {
  const body = measures.map((content, at) => `<measure number="${at + 1}">${content}</measure>`).join('\n');
  const list = `<part-list><score-part id="P1"><part-name>${name}</part-name>${head}</score-part></part-list>`;
  return `<score-partwise version="4.0">${list}<part id="P1">${body}</part></score-partwise>`;
}

export interface NoteSketch {
  readonly voice?: string;
  readonly staff?: number;
  /** Elements before `<pitch>`, such as `<chord/>`. */
  readonly lead?: string;
  /** Elements after `<duration>`, such as `<tie type="start"/>`. */
  readonly ties?: string;
  readonly notations?: string;
}

/** `note('C5', 4)`, `note('Bb3', 2, { voice: '5', staff: 2 })`; no duration for a grace note. */
export function note(pitch: string, duration: number | undefined, sketch: NoteSketch = {}): string {
  const { voice = '1', staff = 1, lead = '', ties = '', notations = '' } = sketch;
  const [, step = '', sign, octave = ''] = /^([A-G])([#b]?)(-?\d+)$/.exec(pitch) ?? [];
  const alter = sign === '#' ? '<alter>1</alter>' : sign === 'b' ? '<alter>-1</alter>' : '';
  const time = duration === undefined ? '' : `<duration>${duration}</duration>`;
  const marks = notations === '' ? '' : `<notations>${notations}</notations>`;
  return `<note>${lead}<pitch><step>${step}</step>${alter}<octave>${octave}</octave></pitch>${time}${ties}<voice>${voice}</voice><staff>${staff}</staff>${marks}</note>`;
}

export function attributes(divisions = 4, staves = 2, beats = '4', beatType = '4'): string {
  return `<attributes><divisions>${divisions}</divisions><time><beats>${beats}</beats><beat-type>${beatType}</beat-type></time><staves>${staves}</staves></attributes>`;
}

export function rest(duration: number, voice = '1', staff = 1): string {
  return `<note><rest/><duration>${duration}</duration><voice>${voice}</voice><staff>${staff}</staff></note>`;
}

export function backup(duration: number): string {
  return `<backup><duration>${duration}</duration></backup>`;
}
