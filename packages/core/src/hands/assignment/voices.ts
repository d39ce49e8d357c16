import type { Note } from '../../score/model.js';

/** Share of a voice's notes that must lie on one staff to make it the voice's home for the whole part: from memory. */
const HOME_SHARE = 0.75;

/**
 * The home staff of every note: the staff of its voice. A voice that keeps to one staff for at least three quarters of
 * its notes is at home there and only visits the other; a voice number that serves both staves (some programs count
 * voices by staff) is at home, in each run of notes between two `<backup>` elements, on the run's commoner staff.
 * @returns the home staff of each note by note id
 */
export function homeStaves(notes: readonly Note[]): number[] {
  const byVoice = new Map<string, Map<number, number>>();
  for (const note of notes) count(byVoice, note.voice, note.staff);
  const homes = new Map<string, number>();
  for (const [voice, counts] of byVoice) {
    const [staff, share] = commonest(counts);
    if (share >= HOME_SHARE) homes.set(voice, staff);
  }
  const byRun = new Map<string, Map<number, number>>();
  for (const note of notes) if (!homes.has(note.voice)) count(byRun, runOf(note), note.staff);
  const found: number[] = [];
  for (const note of notes)
    found.push(homes.get(note.voice) ?? commonest(byRun.get(runOf(note)) as Map<number, number>)[0]);
  return found;
}

function runOf({ run, voice }: Note): string {
  return `${run} ${voice}`;
}

function count(into: Map<string, Map<number, number>>, group: string, staff: number): void {
  const counts = into.get(group) ?? new Map<number, number>();
  counts.set(staff, (counts.get(staff) ?? 0) + 1);
  into.set(group, counts);
}

/** The commonest staff, the first one where two are equal, and its share. */
function commonest(counts: ReadonlyMap<number, number>): [staff: number, share: number] {
  let [best, most, sum] = [1, 0, 0];
  for (const [staff, number] of counts) {
    sum += number;
    if (number > most) [best, most] = [staff, number];
  }
  return [best, most / sum];
}
