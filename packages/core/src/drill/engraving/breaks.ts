export type Break = 'none' | 'system' | 'page';

export interface Measured {
  /** Measures of one section stand together; a section begins a system. */
  readonly section: number;
  /** Columns of notes. */
  readonly width: number;
  /** Lines of text over it. */
  readonly texts: number;
}

/** Page and music in mm: A4 with usual margins and a staff of 6.4 mm. */
export const PAGE = { width: 210, height: 297, margin: 15 } as const;
export const STAFF_HEIGHT = 6.4;
const HEIGHT = PAGE.height - 2 * PAGE.margin;
/** Title and caution, at the head of the first page. */
const HEAD_HEIGHT = 40;
/** The staves of a system with their digits and cues, by number of staves: measured on printed pages. */
const SYSTEM_HEIGHT: readonly number[] = [0, 34, 54];
const TEXT_HEIGHT = 4;
/** Columns of notes that a system holds with room for digits and cues. */
const CAPACITY = 32;

/** Where systems and pages begin. */
export function breaksOf(measures: readonly Measured[], staves: number): readonly Break[] {
  const breaks: Break[] = measures.map(() => 'none');
  let room = HEIGHT - HEAD_HEIGHT;
  for (const { from, to } of systemsOf(measures)) {
    const texts = Math.max(0, ...measures.slice(from, to).map((own) => own.texts));
    const height = SYSTEM_HEIGHT[staves]! + TEXT_HEIGHT * texts;
    if (from > 0) breaks[from] = height > room ? 'page' : 'system';
    if (breaks[from] === 'page') room = HEIGHT;
    room -= height;
  }
  return breaks;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

function systemsOf(measures: readonly Measured[]): readonly Stretch[] {
  const systems: Stretch[] = [];
  let from = 0;
  while (from < measures.length) {
    let to = from;
    while (to < measures.length && measures[to]!.section === measures[from]!.section) to++;
    systems.push(...evenly(measures, { from, to }));
    from = to;
  }
  return systems;
}

/** The fewest systems that hold the measures, as even as they can be. */
function evenly(measures: readonly Measured[], section: Stretch): readonly Stretch[] {
  const fewest = packed(measures, section, CAPACITY);
  for (let capacity = 1; capacity < CAPACITY; capacity++) {
    const systems = packed(measures, section, capacity);
    if (systems.length === fewest.length) return systems;
  }
  return fewest;
}

function packed(measures: readonly Measured[], { from, to }: Stretch, capacity: number): readonly Stretch[] {
  const systems: Stretch[] = [];
  let start = from;
  let width = 0;
  for (let at = from; at < to; at++) {
    const own = measures[at]!.width;
    if (at > start && width + own > capacity) {
      systems.push({ from: start, to: at });
      start = at;
      width = 0;
    }
    width += own;
  }
  systems.push({ from: start, to });
  return systems;
}
