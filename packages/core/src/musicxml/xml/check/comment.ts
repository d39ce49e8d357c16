/**
 * Offset behind the comment at `open`. XML 1.0 (production 15) allows no other `--` in it than that of its end.
 *
 * @param fail tells where and why it is refused
 */
export function commentEnd(
  text: string,
  open: number,
  fail: (code: 'NOT_XML', message: string, at: number) => never,
): number {
  const hyphens = text.indexOf('--', open + 4);
  if (hyphens === -1) return fail('NOT_XML', 'a comment has no end; the file seems to be truncated', open);
  if (text[hyphens + 2] !== '>')
    return fail('NOT_XML', 'a comment holds "--", which XML does not allow', hyphens);
  return hyphens + 3;
}
