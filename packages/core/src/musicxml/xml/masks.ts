/** The text with nothing to parse in some ranges, which are given in ascending order; offsets stay as they are. */
export function masked(text: string, ranges: readonly (readonly [number, number])[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const [start, end] of ranges) {
    pieces.push(text.slice(at, start), mask(text, start, end));
    at = end;
  }
  pieces.push(text.slice(at));
  return pieces.join('');
}

/** An instruction may interrupt a value, so that it becomes a comment; one too short for that quotes nothing. */
function mask(text: string, start: number, end: number): string {
  if (!text.startsWith('<?', start)) return ' '.repeat(end - start);
  const inside = end - start - '<!---->'.length;
  return inside < 0 ? text.slice(start, end) : `<!--${' '.repeat(inside)}-->`;
}
