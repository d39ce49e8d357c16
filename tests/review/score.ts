import { type Review, type ReviewOptions, review } from '#core/index.js';
import type { Hand } from '#core/score/model.js';

const STEPS = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const;
const NATURALS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
/** Twice the key about which the keyboard mirrors itself. */
const MIRROR = 124;

/**
 * What one hand plays: onsets such as `C4=1`, chords `C4=1+E4=3`, lengths in eighths `G4=2:3`, `r` an eighth's rest, bars
 * parted by `|`, a second voice of as many eighths after `/`.
 */
export type Onsets = string;

/** `F#4`, `Bb4`: MIDI number. */
function keyOf(name: string): number {
  const alter = name.includes('#') ? 1 : name.includes('b') ? -1 : 0;
  return 12 * (Number(name.at(-1)) + 1) + NATURALS[name[0]!]! + alter;
}

interface Form {
  /** Eighths a minute. Default 300. */
  readonly eighths?: number;
  /** The same on the mirrored keyboard, for the left hand. */
  readonly mirrored?: boolean;
}

/** Eighths of a voice. */
function lengthOf(onsets: Onsets): number {
  return onsets
    .trim()
    .split(/\s+/)
    .reduce((sum, onset) => sum + Number(onset.split(':')[1] ?? 1), 0);
}

function measureOf(onsets: Onsets, hand: Hand, mirrored: boolean): string {
  const voices = onsets.split('/');
  const back = `<backup><duration>${lengthOf(voices[0]!)}</duration></backup>`;
  return voices.map((own, nth) => voiceOf(own, hand, mirrored, nth)).join(back);
}

function voiceOf(onsets: Onsets, hand: Hand, mirrored: boolean, nth: number): string {
  return onsets
    .trim()
    .split(/\s+/)
    .map((onset) => {
      const [chord = '', length = '1'] = onset.split(':');
      const staff = hand === 'right' ? 1 : 2;
      const voice = staff + 2 * nth;
      const rest = `<duration>${length}</duration><voice>${voice}</voice><staff>${staff}</staff>`;
      if (chord === 'r') return `<note><rest/>${rest}</note>`;
      const keys = chord.split('+').map((one) => {
        const [name = '', digit] = one.split('=');
        return { key: mirrored ? MIRROR - keyOf(name) : keyOf(name), digit };
      });
      return keys
        .sort((a, b) => a.key - b.key)
        .map(({ key, digit }, nth) => {
          const step = STEPS[key % 12]!;
          const alter = step.length > 1 ? '<alter>1</alter>' : '';
          const pitch = `<pitch><step>${step[0]}</step>${alter}<octave>${Math.floor(key / 12) - 1}</octave></pitch>`;
          const fingering = `<notations><technical><fingering>${digit}</fingering></technical></notations>`;
          return `<note>${nth > 0 ? '<chord/>' : ''}${pitch}${rest}${digit === undefined ? '' : fingering}</note>`;
        })
        .join('\n');
    })
    .join('\n');
}

/** A piano score of two staves; bars are the texts of a hand, parted by `|`. */
export function scoreOf(
  hands: { readonly right?: Onsets; readonly left?: Onsets },
  { eighths = 300, mirrored = false }: Form = {},
): string {
  const bars = (hand: Hand) => (hands[hand] ?? '').split('|').filter((bar) => bar.trim() !== '');
  const [right, left] = mirrored ? [bars('left'), bars('right')] : [bars('right'), bars('left')];
  const measures: string[] = [];
  for (let nth = 0; nth < Math.max(right.length, left.length); nth++) {
    const up = right[nth] === undefined ? '' : measureOf(right[nth]!, 'right', mirrored);
    const down = left[nth] === undefined ? '' : measureOf(left[nth]!, 'left', mirrored);
    const length = lengthOf(right[nth]?.split('/')[0] ?? '');
    const back = down === '' || up === '' ? '' : `<backup><duration>${length}</duration></backup>`;
    const attributes =
      nth > 0
        ? ''
        : '<attributes><divisions>2</divisions><staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef>' +
          '<clef number="2"><sign>F</sign><line>4</line></clef></attributes>' +
          `<direction><direction-type><words>tempo</words></direction-type><sound tempo="${eighths / 2}"/></direction>`;
    measures.push(`<measure number="${nth + 1}">${attributes}${up}${back}${down}</measure>`);
  }
  return (
    '<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list>' +
    `<part id="P1">${measures.join('\n')}</part></score-partwise>`
  );
}

/** The review of what one hand plays, on the mirrored keyboard for the left hand. */
export function reviewOf(hand: Hand, onsets: Onsets, form: Form = {}, options: ReviewOptions = {}): Review {
  return review(scoreOf({ right: onsets }, { ...form, mirrored: hand === 'left' }), options);
}
