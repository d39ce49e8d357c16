import type { Event, Head, MeasureModel, NotationsKind, ScoreModel } from './generate.js';
import { serialise, type Xml, xml } from './generate-xml.js';

const UNITS = 16;
const TYPES: Readonly<Record<number, readonly [type: string, dots: number]>> = {
  1: ['16th', 0],
  2: ['eighth', 0],
  3: ['eighth', 1],
  4: ['quarter', 0],
  6: ['quarter', 1],
  8: ['half', 0],
};

const fingering = (text: string, attributes = {}) => xml('fingering', text, attributes);
const technical = (...children: Xml[]) => xml('technical', children);
const notations = (...children: Xml[]) => xml('notations', children);

const NOTATIONS_XML: Readonly<Record<NotationsKind, readonly Xml[]>> = {
  none: [],
  'self-closed': [notations()],
  empty: [xml('open-notations')],
  articulation: [notations(xml('articulations', [xml('staccato')]))],
  'technical-self-closed': [notations(technical())],
  'technical-empty': [notations(xml('open-technical'))],
  'technical-bow': [notations(technical(xml('up-bow')), xml('fermata'))],
  digit: [notations(technical(fingering('4', { placement: 'below' })))],
  'two-digits': [notations(technical(fingering('2'), fingering('1', { substitution: 'yes' })))],
  'no-digit-text': [notations(technical(fingering('p & 1', { alternate: 'no' })))],
  'two-notations': [notations(xml('fermata')), notations(technical(xml('down-bow')))],
  hidden: [xml('notations', [technical(xml('up-bow'))], { 'print-object': 'no' })],
  editorial: [notations(xml('footnote', 'editor'), xml('level', 'II'), technical(xml('up-bow')))],
};

interface Voice {
  readonly number: number;
  readonly staff: number;
  readonly staves: number;
  readonly scale: number;
}

function pitch({ step, alter, octave }: Head): Xml {
  const middle = alter === 0 ? [] : [xml('alter', String(alter))];
  return xml('pitch', [xml('step', step), ...middle, xml('octave', String(octave))]);
}

function ties(role: '' | 'start' | 'stop', name: 'tie' | 'tied'): Xml[] {
  return role === '' ? [] : [xml(name, [], { type: role })];
}

interface Sound {
  readonly units: number;
  readonly grace: boolean;
  readonly tie: '' | 'start' | 'stop';
  readonly triplet: boolean;
}

function noteXml(event: Event, heads: readonly Head[], sound: Sound, voice: Voice): Xml[] {
  const [type, dots] = sound.grace ? ['eighth', 0] : (TYPES[sound.units] ?? ['quarter', 0]);
  const ticks = sound.triplet ? voice.scale * 4 : (sound.units * voice.scale * 12) / 4;
  const cue = event.kind === 'cue' && !sound.grace;
  return heads.map((head, index) => {
    const staff = event.crossStaff && index > 0 ? 3 - voice.staff : voice.staff;
    const own = sound.grace ? [] : NOTATIONS_XML[event.notations];
    const tied = ties(sound.tie, 'tied');
    return xml('note', [
      ...(sound.grace ? [xml('grace')] : []),
      ...(cue ? [xml('cue')] : []),
      ...(index > 0 ? [xml('chord')] : []),
      pitch(head),
      ...(sound.grace ? [] : [xml('duration', String(ticks))]),
      ...(cue ? [] : ties(sound.tie, 'tie')),
      xml('voice', String(voice.number)),
      xml('type', type),
      ...Array.from({ length: dots }, () => xml('dot')),
      ...(sound.triplet
        ? [xml('time-modification', [xml('actual-notes', '3'), xml('normal-notes', '2')])]
        : []),
      ...(voice.staves > 1 ? [xml('staff', String(staff))] : []),
      ...(tied.length > 0 ? [notations(...tied)] : []),
      ...own,
      ...(event.lyric && index === 0 && !sound.grace
        ? [xml('lyric', [xml('text', 'la & lu')], { number: '1' })]
        : []),
    ]);
  });
}

function beforeXml(event: Event, voice: Voice): Xml[] {
  const place = [
    xml('voice', String(voice.number)),
    ...(voice.staves > 1 ? [xml('staff', String(voice.staff))] : []),
  ];
  const direction = (content: Xml) => [
    xml('direction', [xml('direction-type', [content]), ...place], { placement: 'above' }),
  ];
  switch (event.before) {
    case 'words':
      return direction(xml('words', 'dolce & <so>'));
    case 'dynamics':
      return direction(xml('dynamics', [xml('p')]));
    case 'clef':
      return [
        xml('attributes', [
          xml(
            'clef',
            [xml('sign', 'F'), xml('line', '4')],
            voice.staves > 1 ? { number: String(voice.staff) } : {},
          ),
        ]),
      ];
    case 'harmony':
      return [xml('harmony', [xml('root', [xml('root-step', 'C')]), xml('kind', 'major')])];
    default:
      return [];
  }
}

function eventXml(event: Event, units: number, voice: Voice): Xml[] {
  const plain = { units, grace: false, tie: '', triplet: false } as const;
  if (event.kind === 'forward') {
    return [xml('forward', [xml('duration', String(units * voice.scale * 3))])];
  }
  if (event.kind === 'rest') {
    const [rest] = noteXml(event, [{ step: 'C', alter: 0, octave: 4 }], plain, voice);
    const content = (rest as Xml).content as Xml[];
    return [
      xml(
        'note',
        content
          .map((child) => (child.name === 'pitch' ? xml('rest') : child))
          .filter(({ name }) => name !== 'notations' && name !== 'lyric'),
      ),
    ];
  }
  const graces = event.graces.flatMap((heads) => noteXml(event, heads, { ...plain, grace: true }, voice));
  const before = [...beforeXml(event, voice), ...graces];
  if (event.kind === 'triplet' && units === 4) {
    const third = () => noteXml(event, event.heads, { ...plain, units: 2, triplet: true }, voice);
    return [...before, ...third(), ...third(), ...third()];
  }
  if (event.tied && units % 2 === 0 && event.kind === 'note' && TYPES[units / 2] !== undefined) {
    const half = (tie: 'start' | 'stop') =>
      noteXml(event, event.heads, { ...plain, units: units / 2, tie }, voice);
    return [...before, ...half('start'), ...half('stop')];
  }
  return [...before, ...noteXml(event, event.heads, plain, voice)];
}

function voiceXml(events: readonly Event[], voice: Voice): Xml[] {
  const content: Xml[] = [];
  let used = 0;
  for (const event of events) {
    if (used + event.units > UNITS) continue;
    content.push(...eventXml(event, event.units, voice));
    used += event.units;
  }
  if (used < UNITS) content.push(xml('forward', [xml('duration', String((UNITS - used) * voice.scale * 3))]));
  return content;
}

function measureContent(measure: MeasureModel, staves: number, first: boolean): Xml[] {
  const scale = measure.divisions / 12;
  const attributes = xml('attributes', [
    xml('divisions', String(measure.divisions)),
    ...(first
      ? [xml('key', [xml('fifths', '0')]), xml('time', [xml('beats', '4'), xml('beat-type', '4')])]
      : []),
    ...(first && staves > 1 ? [xml('staves', String(staves))] : []),
    ...(first ? clefs(staves) : []),
  ]);
  const content: Xml[] = [attributes];
  measure.voices.forEach((events, index) => {
    if (index > 0) content.push(xml('backup', [xml('duration', String(UNITS * scale * 3))]));
    const staff = staves > 1 && index === 1 ? 2 : 1;
    content.push(...voiceXml(events, { number: index + 1, staff, staves, scale }));
  });
  return content;
}

function clefs(staves: number): Xml[] {
  const clef = (sign: string, line: string, number: object) =>
    xml('clef', [xml('sign', sign), xml('line', line)], number);
  return staves === 1
    ? [clef('G', '2', {})]
    : [clef('G', '2', { number: '1' }), clef('F', '4', { number: '2' })];
}

/** The model as valid MusicXML in its own style. */
export function toXml({ parts, style }: ScoreModel): string {
  const ids = parts.map((_, index) => `P${index + 1}`);
  const header = [
    xml('movement-title', 'Etude & Air'),
    ...(style.credits ? [xml('credit', [xml('credit-words', 'Etude')], { page: '1' })] : []),
    xml(
      'part-list',
      ids.map((id) => xml('score-part', [xml('part-name', 'Piano')], { id })),
    ),
  ];
  const attributes = style.version === undefined ? {} : { version: style.version };
  const bars = parts[0]?.measures ?? [];
  const cell = (part: number, bar: number) => {
    const { staves, measures } = parts[part] as ScoreModel['parts'][number];
    return measureContent(measures[bar] as MeasureModel, staves, bar === 0);
  };
  const body = style.timewise
    ? bars.map((_, bar) =>
        xml(
          'measure',
          ids.map((id, part) => xml('part', cell(part, bar), { id })),
          { number: String(bar + 1) },
        ),
      )
    : ids.map((id, part) =>
        xml(
          'part',
          bars.map((_, bar) => xml('measure', cell(part, bar), { number: String(bar + 1) })),
          { id },
        ),
      );
  return serialise(
    xml(style.timewise ? 'score-timewise' : 'score-partwise', [...header, ...body], attributes),
    style,
  );
}
