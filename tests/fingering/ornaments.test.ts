import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handModel } from '#core/anatomy/hand.js';
import { fingerLine } from '#core/fingering/finger.js';
import { buildLines } from '#core/hands/build.js';
import { type Ornamented, ornamentsOf } from '#core/hands/ornaments.js';
import type { Hand } from '#core/score/model.js';
import { attributes, backup, note, onePart, readText } from '../musicxml/read-source.js';
import { happenings, lineOf } from './lines.js';

const model = handModel();
const mark = (name: string) => ({ notations: `<ornaments><${name}/></ornaments>` });
const tremolo = (type: string) => ({
  notations: `<ornaments><tremolo type="${type}">3</tremolo></ornaments>`,
});

/** The one line of a score, its ornaments, and its fingers with and without regard to them. */
function read(measures: readonly string[]) {
  const { score } = readText(onePart(measures));
  const [line] = buildLines(score).lines;
  const ornaments = ornamentsOf(line!, score.parts[0]!);
  const fingers = (own: typeof ornaments) =>
    fingerLine(line!, model, { keepDigits: true, ornaments: own }).fingering.slices;
  return { line: line!, ornaments, heeded: fingers(ornaments), plain: fingers(undefined) };
}

const scale = (names: string) =>
  names
    .split(' ')
    .map((name) => note(name, 2))
    .join('');
const G_MAJOR = 'G4 A4 B4 C5 D5 E5 F#5 G5';
const C_MAJOR = 'C4 D4 E4 F4 G4 A4 B4 C5';

describe('the neighbouring keys of an ornament', () => {
  it.each([
    ['trill-mark', 'E5', [78]],
    ['trill-mark', 'B4', [72]],
    ['mordent', 'G5', [78]],
    ['inverted-mordent', 'A4', [71]],
    ['turn', 'G5', [81, 78]],
    ['inverted-turn', 'D5', [76, 72]],
  ] as const)('of a %s on %s are those of the scale around it', (name, pitch, keys) => {
    const { ornaments } = read([
      `${attributes(4, 1)}${scale(G_MAJOR)}`,
      note(pitch, 16, mark(name)),
      scale(G_MAJOR),
    ]);
    expect(ornaments!.keys.get(8)![0]!.auxiliaries).toEqual(keys);
  });

  it('follow the scale where it changes', () => {
    const { ornaments } = read([`${attributes(4, 1)}${scale(C_MAJOR)}`, note('E4', 16, mark('trill-mark'))]);
    expect(ornaments!.keys.get(8)).toEqual([{ key: 64, auxiliaries: [65], lasting: true }]);
  });

  it('are a tone above and a semitone below where nothing tells', () => {
    const { ornaments } = read([`${attributes(4, 1)}${note('E4', 16, mark('turn'))}`]);
    expect(ornaments!.keys.get(0)![0]!.auxiliaries).toEqual([66, 63]);
  });

  it('are none without ornaments', () => {
    expect(read([`${attributes(4, 1)}${scale(C_MAJOR)}`]).ornaments).toBeUndefined();
  });
});

describe('fingers for ornaments (common practice)', () => {
  it('a trill leaves a finger free above: never on 5, seldom on the weak pairs', () => {
    const counts = [0, 0, 0, 0, 0];
    for (let key = 60; key < 72; key++) {
      const events = [-4, -2, 0, -2, -4].map((way) => ({
        presses: [{ key: key + way, holds: 0, pedalled: false }],
        seconds: 0.3,
        rest: 0,
        phraseStart: false,
        grace: false,
        onBeat: true,
      }));
      const line = lineOf('right', events);
      const one: Ornamented = { key, auxiliaries: [key + 2], lasting: true };
      const ornaments = { keys: new Map([[2, [one]]]), tremolos: new Set<number>() };
      const finger = fingerLine(line, model, { keepDigits: false, ornaments }).fingering.slices[2]!
        .struck[0]!;
      counts[finger - 1]! += 1;
    }
    console.log(`trills on the twelve keys begin with 1 to 5: ${counts.join(', ')}`);
    expect(counts[4]).toBe(0);
    expect(counts[3]).toBeLessThan(counts[0]! + counts[1]! + counts[2]!);
  });

  it('a turn has a finger free on either side', () => {
    for (const pitch of ['D4', 'G4', 'B4']) {
      const { heeded } = read([`${attributes(4, 1)}${scale(C_MAJOR)}`, note(pitch, 16, mark('turn'))]);
      expect([2, 3, 4]).toContain(heeded[8]!.struck[0]);
      expect(heeded[8]!.terms.ornament ?? 0).toBeLessThan(120);
    }
  });

  it('a trill beside a held key takes fingers that do not hold it', () => {
    const held = `${note('C4', 16)}${backup(16)}${note('E4', 16, { voice: '2', ...mark('trill-mark') })}`;
    const { heeded } = read([`${attributes(4, 1)}${held}`, scale(C_MAJOR)]);
    const [low, high] = heeded[0]!.struck;
    expect(low).toBeLessThan(high!);
    expect(high).toBeLessThan(5);
  });

  it('a tremolo between two keys is held like one chord', () => {
    for (const [low, high] of [
      ['C4', 'C5'],
      ['C4', 'E4'],
      ['D4', 'Bb4'],
    ]) {
      const { line, ornaments, heeded } = read([
        `${attributes(4, 1)}${note(low!, 8, tremolo('start'))}${note(high!, 8, tremolo('stop'))}`,
      ]);
      expect([...ornaments!.tremolos]).toEqual([1]);
      expect(line.slices).toHaveLength(2);
      expect(heeded[0]!.struck[0]!).toBeLessThan(heeded[1]!.struck[0]!);
    }
    const { ornaments } = read([
      `${attributes(4, 1)}${note('C4', 8, tremolo('single'))}${note('E4', 8, tremolo('single'))}`,
    ]);
    expect(ornaments).toBeUndefined();
  });

  it('are the same in mirrored music, and pay what they state', () => {
    let [heeded, lines] = [0, 0];
    const kinds = fc.constantFrom<(readonly number[])[]>([2], [1], [-1], [2, -1]);
    fc.assert(
      fc.property(
        happenings({ keys: 2, holds: 1, ambit: 14 }, 2, 10),
        fc.array(kinds, { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        (events, list, lasting) => {
          const fingered = (hand: Hand) => {
            const line = lineOf(hand, events);
            const keys = new Map(
              line.slices.flatMap(({ index, struck }): [number, Ornamented[]][] => {
                if (index % 2 > 0) return [];
                const right = hand === 'right' ? struck : struck.toReversed();
                const key = right[0]!.key;
                const ways = list[index % list.length]!;
                const auxiliaries = ways.map((way) => (hand === 'right' ? key + way : key - way));
                return [[index, [{ key, auxiliaries, lasting }]]];
              }),
            );
            const ornaments = { keys, tremolos: new Set([1].filter((at) => at < line.slices.length)) };
            const own = fingerLine(line, model, { keepDigits: false, ornaments }).fingering;
            const sum = own.slices
              .flatMap(({ terms }) => Object.values(terms))
              .reduce((all, one) => all + one, 0);
            // Told with six decimal places each.
            expect(Math.abs(sum - own.cost)).toBeLessThan(1e-4);
            heeded += own.slices.filter(({ terms }) => terms.ornament).length;
            return own.slices.map(({ struck }) => (hand === 'right' ? struck : struck.toReversed()));
          };
          const [right, left] = [fingered('right'), fingered('left')];
          expect(left).toEqual(right);
          lines++;
        },
      ),
      { numRuns: 150 },
    );
    console.log(
      `ornaments: ${lines} mirrored lines with equal digits, ${heeded} ornaments that cost something`,
    );
    expect(heeded).toBeGreaterThan(0);
  });
});
