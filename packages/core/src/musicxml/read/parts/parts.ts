import { MAX_STAVES } from '../../../options/limits.js';
import { HandlineError } from '../../../score/errors.js';
import type { XmlElement } from '../../xml/tree.js';
import { integer } from '../elements/number.js';
import { braceParts } from './part-groups.js';
import type { MeasureSource, PartSource } from './part-source.js';

/** @throws HandlineError NOT_MUSICXML where the root is not a score */
export function requireScore(root: XmlElement, file?: string): void {
  if (root.name === 'score-partwise' || root.name === 'score-timewise') return;
  throw new HandlineError(
    'NOT_MUSICXML',
    `the root element is <${(root.prefix + root.name).slice(0, 40)}>, not <score-partwise> or <score-timewise>; export the score as MusicXML`,
    file === undefined ? {} : { file },
  );
}

/** @throws HandlineError NOT_MUSICXML where the root is not a score */
export function readParts(root: XmlElement, file?: string): PartSource[] {
  requireScore(root, file);
  const measures = root.name === 'score-partwise' ? partwise(root) : timewise(root);
  const listed = new Map<string, XmlElement>();
  for (const element of root.child('part-list')?.all('score-part') ?? []) {
    listed.set(element.attribute('id') ?? '', element);
  }
  const parts = [...measures].map(([id, list]) => ({
    id,
    ...describePart(listed.get(id)),
    staves: countStaves(list),
    measures: list,
  }));
  return braceParts(parts, root.child('part-list'));
}

function partwise(root: XmlElement): Map<string, MeasureSource[]> {
  const parts = new Map<string, MeasureSource[]>();
  for (const part of root.all('part')) {
    const list = listOf(parts, part.attribute('id') ?? '');
    for (const measure of part.all('measure')) list.push(measureSource(measure, measure));
  }
  return parts;
}

function timewise(root: XmlElement): Map<string, MeasureSource[]> {
  const parts = new Map<string, MeasureSource[]>();
  for (const measure of root.all('measure')) {
    for (const part of measure.all('part')) {
      listOf(parts, part.attribute('id') ?? '').push(measureSource(measure, part));
    }
  }
  return parts;
}

function listOf(parts: Map<string, MeasureSource[]>, id: string): MeasureSource[] {
  const list = parts.get(id) ?? [];
  parts.set(id, list);
  return list;
}

function measureSource(measure: XmlElement, content: XmlElement): MeasureSource {
  return {
    number: measure.attribute('number') ?? '',
    implicit: measure.attribute('implicit') === 'yes',
    content,
  };
}

function describePart(
  part: XmlElement | undefined,
): Pick<PartSource, 'name' | 'names' | 'sounds' | 'programs'> {
  if (part === undefined) return { name: '', names: [], sounds: [], programs: [] };
  const instruments = part.all('score-instrument');
  const name = part.textOf('part-name') ?? '';
  const names = [name, ...instruments.map((instrument) => instrument.textOf('instrument-name') ?? '')];
  const sounds = instruments.map((instrument) => instrument.textOf('instrument-sound') ?? '');
  const programs = part.all('midi-instrument').map((midi) => integer(midi.textOf('midi-program')));
  return {
    name,
    names: names.filter((text) => text !== ''),
    sounds: sounds.filter((text) => text !== ''),
    programs: programs.filter((program) => program !== undefined),
  };
}

/** The highest number among `<staves>` and, where an exporter forgot it, the notes' `<staff>`. */
function countStaves(measures: readonly MeasureSource[]): number {
  let staves = 1;
  for (const { content } of measures) {
    for (const element of content.children) {
      const text = element.name === 'attributes' ? element.textOf('staves') : undefined;
      if (text !== undefined) staves = Math.max(staves, integer(text) ?? 1);
    }
  }
  if (staves === 1) {
    for (const { content } of measures) {
      for (const element of content.children) {
        if (element.name === 'note') staves = Math.max(staves, integer(element.textOf('staff')) ?? 1);
      }
    }
  }
  return Math.min(Math.max(staves, 1), MAX_STAVES);
}
