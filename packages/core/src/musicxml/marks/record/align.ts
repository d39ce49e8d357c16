import { type Head, pitchClass } from './heads.js';
import type { HeadRecord } from './token.js';

/** Some records of a part, and the note heads from the place on where they stand. */
export interface Row {
  readonly records: readonly HeadRecord[];
  readonly heads: readonly Head[];
}

/** Cells of the longest table that is worked out; beyond it only what stands at both ends is found. */
const MOST_CELLS = 4_000_000;
/** Note heads of about one measure for two hands. */
const NEARBY = 24;
/** So many heads in rows that all lie as much higher are no accident. */
const TRANSPOSED = 8;

/**
 * By how many semitones, up to octaves, another hand has transposed a part: what fits most of the rows as a whole.
 * None where hardly a note bears it out.
 */
export function transposition(rows: readonly Row[]): number {
  const votes = new Array<number>(12).fill(0);
  for (const { records, heads } of rows) {
    const [first] = records;
    if (first === undefined || heads.length < records.length) continue;
    const shift = (pitchClass(heads[0] as Head) - first.pitch + 12) % 12;
    if (fits(records, heads, shift)) votes[shift] = (votes[shift] as number) + records.length;
  }
  const most = Math.max(...votes);
  return most < TRANSPOSED || votes[0] === most ? 0 : votes.indexOf(most);
}

/** True where a head carries a text as its digit. */
export type Says = (head: Head, text: string) => boolean;

/**
 * Which note heads the records of a row speak of: those that stand there in the same order or else, where notes were
 * put in, taken out or moved, the longest series that both have in common, pitches and digits; then what is left
 * of both nearby.
 *
 * @returns for every record its head, where there is one
 */
export function align({ records, heads }: Row, shift: number, says: Says): readonly (Head | undefined)[] {
  if (heads.length >= records.length && fits(records, heads, shift)) return records.map((_, at) => heads[at]);
  const isPitch = (record: number, head: number) =>
    ((records[record] as HeadRecord).pitch + shift) % 12 === pitchClass(heads[head] as Head);
  const isSame = (record: number, head: number) => {
    const { written } = records[record] as HeadRecord;
    return isPitch(record, head) && (written === undefined || says(heads[head] as Head, written));
  };
  const found = inCommon(records.length, heads.length, isSame);
  for (const test of [isSame, isPitch]) takeNearby(found, heads.length, test);
  return found.map((at) => (at === undefined ? undefined : heads[at]));
}

/**
 * Gives records that have no head in their own row one of a neighbouring row that no record has, of the same pitch and
 * with the digit on record: some programs move the notes of an irregular measure, and our words with them.
 *
 * @param found by row, as `align` gives it
 */
export function strayed(
  rows: readonly Row[],
  found: readonly (readonly (Head | undefined)[])[],
  shift: number,
  says: Says,
): readonly (readonly (Head | undefined)[])[] {
  const taken = new Set(found.flat());
  return rows.map(({ records }, nth) => {
    const near = [...(rows[nth - 1]?.heads ?? []), ...(rows[nth + 1]?.heads ?? [])];
    return records.map(({ pitch, written }, at) => {
      const own = found[nth]?.[at];
      if (own !== undefined || written === undefined) return own;
      const head = near.find(
        (one) => !taken.has(one) && pitchClass(one) === (pitch + shift) % 12 && says(one, written),
      );
      if (head !== undefined) taken.add(head);
      return head;
    });
  });
}

function fits(records: readonly HeadRecord[], heads: readonly Head[], shift: number): boolean {
  return records.every(({ pitch }, at) => (pitch + shift) % 12 === pitchClass(heads[at] as Head));
}

type Test = (record: number, head: number) => boolean;

/** For each record its head in a longest common subsequence. */
function inCommon(records: number, heads: number, isSame: Test): (number | undefined)[] {
  const found = new Array<number | undefined>(records).fill(undefined);
  let start = 0;
  while (start < records && start < heads && isSame(start, start)) found[start] = start++;
  let [recordsEnd, headsEnd] = [records, heads];
  while (recordsEnd > start && headsEnd > start && isSame(recordsEnd - 1, headsEnd - 1)) {
    found[--recordsEnd] = --headsEnd;
  }
  const [rows, columns] = [recordsEnd - start, headsEnd - start];
  if (rows * columns > MOST_CELLS) return found;
  // Its length from each place on.
  const width = columns + 1;
  const longest = new Uint32Array((rows + 1) * width);
  const at = (row: number, column: number) => longest[row * width + column] as number;
  for (let row = rows - 1; row >= 0; row--) {
    for (let column = columns - 1; column >= 0; column--) {
      longest[row * width + column] = isSame(start + row, start + column)
        ? at(row + 1, column + 1) + 1
        : Math.max(at(row + 1, column), at(row, column + 1));
    }
  }
  for (let [row, column] = [0, 0]; row < rows && column < columns; ) {
    if (isSame(start + row, start + column)) found[start + row++] = start + column++;
    else if (at(row + 1, column) >= at(row, column + 1)) row++;
    else column++;
  }
  return found;
}

/** Gives each record without a head the nearest free one that passes, within the distance of about a measure. */
function takeNearby(found: (number | undefined)[], heads: number, passes: Test): void {
  const taken = new Set(found);
  let expected = -1;
  for (const [record, head] of found.entries()) {
    expected = head ?? expected + 1;
    if (head !== undefined) continue;
    for (let distance = 0; distance <= NEARBY && found[record] === undefined; distance++) {
      for (const at of [expected - distance, expected + distance]) {
        if (at < 0 || at >= heads || taken.has(at) || !passes(record, at)) continue;
        found[record] = at;
        taken.add(at);
        break;
      }
    }
  }
}
