// Lone surrogates can occur only in input given as a string.
const FORBIDDEN =
  /[^\t\n\r\u0020-\ufffd]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;
/** All of them and a few others; far faster to look for in texts with characters beyond Latin-1. */
const SUSPECT = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd]/;

/** Offset of the first character that no XML file may hold, or -1. */
export function forbiddenAt(text: string): number {
  return SUSPECT.test(text) ? text.search(FORBIDDEN) : -1;
}
