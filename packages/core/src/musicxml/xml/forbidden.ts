// Half a surrogate pair can come in a string only.
const FORBIDDEN =
  /[^\t\n\r\u0020-\ufffd]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;
/** Far faster than the other where a text has characters beyond Latin-1; few texts have one of these. */
const DOUBTFUL = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd]/;

/** Offset of the first character that no XML file may hold, or -1. */
export function forbiddenAt(text: string): number {
  return DOUBTFUL.test(text) ? text.search(FORBIDDEN) : -1;
}
