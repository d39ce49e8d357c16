import type { Fingerer } from '../judge.js';
import { buildLine, type Strike } from '../making/build-line.js';
import { degree, lowTonic, MODES, type Mode, SEVENTHS, TRIADS } from '../making/pitches.js';
import { type Played, playedOf } from '../played.js';
import type { Count } from './counts.js';

interface Run {
  readonly name: string;
  /** Key of the n-th note upwards from the lowest; an octave has `size` notes. */
  readonly key: (low: number, nth: number) => number;
  readonly size: number;
}

const SCALES = (['major', 'harmonic minor'] as const).map(
  (mode: Mode): Run => ({
    name: `${mode} scale`,
    key: (low, nth) => degree(low, mode, nth),
    size: MODES[mode].length,
  }),
);
const ARPEGGIOS = Object.entries({
  'major arpeggio': TRIADS.major,
  'minor arpeggio': TRIADS.minor,
  'dominant seventh arpeggio': SEVENTHS.dominant,
  'diminished seventh arpeggio': SEVENTHS.diminished,
}).map(
  ([name, tones]): Run => ({
    name,
    key: (low, nth) => low + 12 * Math.floor(nth / tones.length) + tones[nth % tones.length]!,
    size: tones.length,
  }),
);

export interface RunSurvey extends Count {
  readonly name: string;
  /** Runs that differ: tonic, hand and digits of both. */
  readonly unlike: readonly string[];
}

/**
 * Runs of two octaves against the same runs of three, up and down, sixteenths at 90 (common practice: a run of three octaves
 * is that of two, with one more). The first octave, its lowest note included, and the last are compared with their like.
 */
export function surveyRuns(finger: Fingerer): RunSurvey[] {
  return [...SCALES, ...ARPEGGIOS].map((run): RunSurvey => {
    const unlike: string[] = [];
    for (let tonic = 0; tonic < 12; tonic++) {
      for (const hand of ['right', 'left'] as const) {
        const low = lowTonic(tonic, hand) - 12;
        const [two, three] = [2, 3].map((octaves) => digitsOf(upAndDown(run, low, octaves, hand, finger)));
        const { size } = run;
        const first = three!.slice(0, size) === two!.slice(0, size);
        const last = three!.slice(2 * size, 4 * size + 1) === two!.slice(size, 3 * size + 1);
        if (!first || !last) unlike.push(`${tonic} ${hand}: ${two} and ${three}`);
      }
    }
    return { name: run.name, occasions: 24, breaches: unlike.length, unlike };
  });
}

function upAndDown(run: Run, low: number, octaves: number, hand: 'right' | 'left', finger: Fingerer): Played {
  const top = octaves * run.size;
  const steps = Array.from({ length: 2 * top + 1 }, (_, nth) => (nth <= top ? nth : 2 * top - nth));
  const strikes = steps.map(
    (step, nth): Strike => ({
      at: nth / 4,
      keys: [run.key(low, step)],
      ...(run.size === 7 && { diatonic: 21 + step }),
    }),
  );
  const line = buildLine(hand, strikes, { tempo: 90 });
  return playedOf(line, finger(line, 'medium', {}), 'medium');
}

function digitsOf({ moments }: Played): string {
  return moments.map(({ struck: [own] }) => own!.finger ?? '-').join('');
}
