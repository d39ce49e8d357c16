const [TAB, LINE_FEED, RETURN, SPACE] = [9, 10, 13, 32] as const;

/** True for the code of a space or a tab. */
export function isBlank(code: number): boolean {
  return code === SPACE || code === TAB;
}

/** True for the code of a line feed or a carriage return. */
export function isLineEnd(code: number): boolean {
  return code === LINE_FEED || code === RETURN;
}

/** True for the code of what XML takes for white space. */
export function isSpace(code: number): boolean {
  return isBlank(code) || isLineEnd(code);
}

/** Offset after the last character before `at` that is not white space. */
export function behindContent(text: string, at: number): number {
  let end = at;
  while (isSpace(text.charCodeAt(end - 1))) end--;
  return end;
}

/** Offset of the first character from `at` on that is not white space. */
export function skipSpace(text: string, at: number): number {
  let start = at;
  while (isSpace(text.charCodeAt(start))) start++;
  return start;
}
