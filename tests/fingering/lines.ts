import fc from 'fast-check';
import type { Line, Slice, SliceKey } from '#core/hands/line.js';
import { mirrorKey } from '#core/keyboard/key-plan.js';
import type { Finger, Hand } from '#core/score/model.js';

/** A key that an event strikes: it stays down through `holds` more events, unless it is struck again. */
export interface Press {
  readonly key: number;
  readonly holds: number;
  readonly pedalled: boolean;
  readonly fixed?: Finger;
}

/** One onset of a test line, in right-hand keys. */
export interface Happening {
  readonly presses: readonly Press[];
  readonly seconds: number;
  /** Share of `seconds` without a key, where no key is held. */
  readonly rest: number;
  readonly phraseStart: boolean;
  readonly grace: boolean;
  readonly onBeat: boolean;
}

/** Keys away from both ends, so that mirroring and octaves stay on the keyboard. */
const key = fc.integer({ min: 45, max: 79 });
const seconds = fc.constantFrom(0.08, 0.15, 0.2, 0.25, 0.4, 0.5, 1.2);
const finger = fc.constantFrom<Finger>(1, 2, 3, 4, 5);

/** What kind of music a line is: `keys` struck at once, up to `holds` events down, reach of neighbouring keys. */
export interface Texture {
  readonly keys: number;
  readonly holds: number;
  /** Semitones around the line's first key in which it stays; omitted: the whole keyboard. */
  readonly ambit?: number;
  /** Give a digit now and then. */
  readonly digits?: boolean;
}

function happening({ keys, holds, digits }: Texture): fc.Arbitrary<Happening> {
  const press = fc
    .record({
      key,
      holds: holds === 0 ? fc.constant(0) : fc.oneof(fc.constant(0), fc.integer({ min: 1, max: holds })),
      pedalled: fc.constantFrom(false, false, false, true),
      fixed: digits ? fc.option(finger, { freq: 3, nil: undefined }) : fc.constant(undefined),
    })
    .map(({ fixed, ...rest }): Press => ({ ...rest, ...(fixed !== undefined && { fixed }) }));
  return fc.record({
    presses: fc.uniqueArray(press, { minLength: 1, maxLength: keys, selector: (own) => own.key }),
    seconds,
    rest: fc.constantFrom(0, 0, 0, 0.5, 0.9),
    phraseStart: fc.constantFrom(false, false, false, false, true),
    grace: fc.constantFrom(false, false, false, false, true),
    onBeat: fc.boolean(),
  });
}

/** Keys folded into an ambit by octaves, or by semitones where it is narrower; doubled keys fall together. */
function fold(presses: readonly Press[], centre: number, ambit: number): readonly Press[] {
  const low = centre - Math.floor(ambit / 2);
  const seen = new Map<number, Press>();
  for (const press of presses) {
    const near = low + ((((press.key - low) % (ambit + 1)) + ambit + 1) % (ambit + 1));
    if (!seen.has(near)) seen.set(near, { ...press, key: near });
  }
  return [...seen.values()];
}

export function happenings(
  texture: Texture,
  least: number,
  most: number,
): fc.Arbitrary<readonly Happening[]> {
  const all = fc.array(happening(texture), { minLength: least, maxLength: most });
  const { ambit } = texture;
  if (ambit === undefined) return all;
  return fc
    .tuple(all, fc.integer({ min: 55, max: 69 }))
    .map(([list, centre]) => list.map((own) => ({ ...own, presses: fold(own.presses, centre, ambit) })));
}

/** The line of a hand; the left hand's keys are mirrored about D. `shift` moves all keys by semitones. */
export function lineOf(hand: Hand, events: readonly Happening[], shift = 0): Line {
  const place = (own: number): number => (hand === 'left' ? mirrorKey(own) : own) + shift;
  let down: { readonly press: Press; readonly since: number }[] = [];
  const slices = events.map((event, index): Slice => {
    const apart = index === 0 ? 0 : event.seconds;
    const struckKeys = new Set(event.presses.map((press) => press.key));
    const held = down.filter(
      ({ press, since }) => since + press.holds >= index && !struckKeys.has(press.key),
    );
    const released = down.filter((own) => !held.includes(own)).map(({ press }) => place(press.key));
    const sliceKey = (press: Press, since: number): SliceKey => ({
      key: place(press.key),
      notes: [since * 10 + (press.key % 10)],
      seconds: apart,
      ...(since < index && { since }),
      ...(press.pedalled && { pedalled: true }),
      ...(since === index && press.fixed !== undefined && { fixed: press.fixed }),
    });
    const ascending = (a: SliceKey, b: SliceKey): number => a.key - b.key;
    const slice: Slice = {
      index,
      onset: { num: index, den: 2 },
      measure: Math.floor(index / 8),
      grace: event.grace,
      struck: event.presses.map((press) => sliceKey(press, index)).sort(ascending),
      held: held.map(({ press, since }) => sliceKey(press, since)).sort(ascending),
      released,
      seconds: apart,
      free: held.length > 0 ? 0 : apart * event.rest,
      phraseStart: index === 0 || event.phraseStart,
      onBeat: event.onBeat,
      rolled: false,
    };
    down = [...held, ...event.presses.map((press) => ({ press, since: index }))];
    return slice;
  });
  return { hand, part: 0, slices };
}

/** The same notes again, an octave higher each time as a second hand position would have them, or at the same place. */
export function again(events: readonly Happening[], times: number, octaves: boolean): Happening[] {
  return Array.from({ length: times }, (_, nth) =>
    events.map((event) => ({
      ...event,
      presses: event.presses.map((press) => ({ ...press, key: press.key + (octaves ? 12 * nth : 0) })),
    })),
  ).flat();
}

/** A key alone, on the beat, a quarter of a second after the one before. */
export const single = (key: number): Happening => ({
  presses: [{ key, holds: 0, pedalled: false }],
  seconds: 0.25,
  rest: 0,
  phraseStart: false,
  grace: false,
  onBeat: true,
});
