import type { ClefInstruction, MusicSheet, SourceStaffEntry } from 'opensheetmusicdisplay';
import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';
import { parseTree, type XmlElement } from '#core/musicxml/xml/tree.js';
import { DEFAULT_LIMITS } from '#core/options/limits.js';
import { sheetReader } from '../conformance/second-reader.js';

/** A staff as a reader understood it. */
export interface ReadStaff {
  /** MIDI numbers as they sound, in order of time, lowest first. */
  readonly keys: readonly number[];
  /** Clefs as they change, the first one first. */
  readonly clefs: readonly string[];
  /** 8va and 8vb lines that begin on it. */
  readonly octaves: readonly ('8va' | '8vb')[];
}

const SEMITONES: Readonly<Record<string, number>> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };
const ALTERS: Readonly<Record<string, number>> = { s: 1, x: 2, ss: 2, f: -1, ff: -2, n: 0 };

function changesOnly<T>(values: readonly T[]): readonly T[] {
  return values.filter((value, at) => at === 0 || value !== values[at - 1]);
}

function* deep(element: XmlElement): Generator<XmlElement> {
  yield element;
  for (const child of element.children) yield* deep(child);
}

function meiKey(note: XmlElement): number {
  const octave = Number(note.attribute('oct.ges') ?? note.attribute('oct'));
  const accid = note.child('accid');
  const alter =
    accid?.attribute('accid') ?? accid?.attribute('accid.ges') ?? note.attribute('accid.ges') ?? 'n';
  return 12 * (octave + 1) + SEMITONES[note.attribute('pname') ?? '']! + ALTERS[alter]!;
}

/** verovio writes notes at the height at which they stand on the staff, and beside it where they sound. */
export async function verovioStaves(): Promise<(text: string) => ReadStaff[]> {
  const module = await createModule();
  enableLog(LOG_OFF, module);
  const toolkit = new VerovioToolkit(module);
  return (text) => {
    if (!toolkit.loadData(text)) throw new Error('verovio cannot read the sheet');
    const root = parseTree(toolkit.getMEI({}).replace(/^[\s\S]*?(?=<mei)/, ''), DEFAULT_LIMITS);
    const all = [...deep(root)];
    return all
      .filter(({ name }) => name === 'staffDef')
      .map((definition) => {
        const number = definition.attribute('n');
        const staves = all
          .filter((element) => element.name === 'staff' && element.attribute('n') === number)
          .flatMap((staff) => [...deep(staff)]);
        const keys: number[] = [];
        for (const element of staves) {
          if (element.name === 'chord') {
            keys.push(
              ...[...deep(element)]
                .filter(({ name }) => name === 'note')
                .map(meiKey)
                .sort((a, b) => a - b),
            );
          } else if (element.name === 'note' && element.parent?.name !== 'chord') keys.push(meiKey(element));
        }
        const clefs = [definition, ...staves]
          .flatMap((element) => (element.name === 'staffDef' ? [...deep(element)] : [element]))
          .filter(({ name }) => name === 'clef')
          .map((clef) => clef.attribute('shape')!);
        const octaves = all
          .filter((element) => element.name === 'octave' && element.attribute('staff') === number)
          .map((octave) => (octave.attribute('dis.place') === 'above' ? '8va' : '8vb') as '8va' | '8vb');
        return { keys, clefs: changesOnly(clefs), octaves };
      });
  };
}

/** MIDI number of OpenSheetMusicDisplay's half tone 0. */
const LOWEST = 12;
const CLEFS: Readonly<Record<number, string>> = { 0: 'G', 1: 'F' };

/** OpenSheetMusicDisplay's reader. */
export function displayStaves(): (text: string) => ReadStaff[] {
  const read = sheetReader();
  return (text) => {
    const sheet: MusicSheet = read(text);
    const staves = sheet.Staves.map(() => ({
      keys: [] as number[],
      clefs: [] as string[],
      octaves: [] as ('8va' | '8vb')[],
    }));
    const clefsOf = (entry: SourceStaffEntry | undefined): string[] =>
      (entry?.Instructions ?? []).flatMap((one) =>
        'ClefType' in one ? [CLEFS[(one as ClefInstruction).ClefType] ?? '?'] : [],
      );
    for (const measure of sheet.SourceMeasures) {
      staves.forEach((staff, nth) => {
        staff.clefs.push(...clefsOf(measure.FirstInstructionsStaffEntries[nth]));
        for (const { StaffEntries } of measure.VerticalSourceStaffEntryContainers) {
          const entry = StaffEntries[nth];
          staff.clefs.push(...clefsOf(entry));
          for (const voice of entry?.VoiceEntries ?? []) {
            const keys = voice.Notes.filter((note) => !note.isRest()).map((note) => note.halfTone + LOWEST);
            staff.keys.push(...keys.sort((a, b) => a - b));
          }
        }
        staff.clefs.push(...clefsOf(measure.LastInstructionsStaffEntries[nth]));
        for (const { OctaveShiftStart } of measure.StaffLinkedExpressions[nth] ?? []) {
          if (OctaveShiftStart) staff.octaves.push(OctaveShiftStart.Type === 0 ? '8va' : '8vb');
        }
      });
    }
    return staves.map((staff) => ({ ...staff, clefs: changesOnly(staff.clefs) }));
  };
}
