import { createRequire } from 'node:module';
import { JSDOM } from 'jsdom';
import type { MusicSheet, Note } from 'opensheetmusicdisplay';
import { asPartwise, type OutsideView } from './outside-reader.js';

/** The step of each fundamental note: semitones above C, as OpenSheetMusicDisplay numbers them. */
const STEPS: Readonly<Record<number, string>> = { 0: 'c', 2: 'd', 4: 'e', 5: 'f', 7: 'g', 9: 'a', 11: 'b' };
/** OpenSheetMusicDisplay counts octaves from three below those of MusicXML. */
const OCTAVE = 3;

function nameOf(note: Note | undefined): string {
  const pitch = note?.Pitch;
  return pitch ? `${STEPS[pitch.FundamentalNote]} ${pitch.Octave + OCTAVE}` : 'undefined undefined';
}

const squeeze = (text: string) => text.replaceAll(/\s+/g, '');

function view(sheet: MusicSheet): OutsideView {
  const music: string[] = [];
  const digits: string[] = [];
  const words: string[] = [];
  sheet.SourceMeasures.forEach((measure, at) => {
    for (const container of measure.VerticalSourceStaffEntryContainers) {
      container.StaffEntries.forEach((entry, staff) => {
        for (const voice of entry?.VoiceEntries ?? []) {
          for (const note of voice.Notes) {
            const [time, length] = [container.Timestamp.RealValue, note.Length.RealValue];
            music.push(`${at}:${time} ${staff} ${voice.ParentVoice.VoiceId} ${nameOf(note)} ${length}`);
          }
          for (const mark of voice.TechnicalInstructions) {
            if (mark.type !== 0) continue;
            digits.push(`${nameOf(mark.sourceNote)} ${squeeze(mark.value)}`);
          }
        }
      });
    }
    measure.StaffLinkedExpressions.forEach((expressions, staff) => {
      for (const one of expressions) {
        const texts = [...one.UnknownList, ...one.MoodList].map(({ Label: label }) => label);
        for (const text of texts.map(squeeze)) {
          if (text !== '') words.push(`${text} @${at}:${one.Timestamp.RealValue} ${staff}`);
        }
      }
    });
  });
  return { music: music.sort().join('\n'), digits: digits.sort(), words: words.sort() };
}

/**
 * Reads MusicXML with OpenSheetMusicDisplay's own reader, without drawing; of a browser it needs the DOM parser alone.
 * Words are those of directions that it takes for no tempo or dynamic mark.
 */
export function secondReader(): (text: string) => OutsideView {
  const read = sheetReader();
  return (text) => view(read(text));
}

/** The sheet itself, as OpenSheetMusicDisplay has read it. */
export function sheetReader(): (text: string) => MusicSheet {
  const { window } = new JSDOM('');
  const scope = globalThis as unknown as Record<string, unknown>;
  const before = { self: scope.self, window: scope.window };
  // It looks for the first two while it is loaded, for `Node` while it reads.
  Object.assign(scope, { self: globalThis, window, Node: window.Node });
  const { IXmlElement, MusicSheetReader } = createRequire(import.meta.url)(
    'opensheetmusicdisplay',
  ) as typeof import('opensheetmusicdisplay');
  Object.assign(scope, before);
  const parser = new window.DOMParser();
  return (text) => {
    const document = parser.parseFromString(asPartwise(text.replace(/^\ufeff/, '')), 'application/xml');
    const root = new IXmlElement(document.documentElement);
    return new MusicSheetReader().createMusicSheet(root, '');
  };
}
